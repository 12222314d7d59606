#include <ohmlore/c.h>
#include <stdio.h>
#include <string.h>

int main(void) {
  const char* document = "{ \"kind\": \"part\" }";
  char* report = ohmlore_lint("small.part.json", document, strlen(document));
  const int good = report != NULL && strstr(report, "\"key-missing\"") != NULL;
  if (report != NULL) puts(report);
  ohmlore_free(report);
  return good ? 0 : 1;
}
