#include <ohmlore/c.h>
#include <stdio.h>
#include <string.h>

int main(void) {
  const char* document = "{ \"kind\": \"part\" }";
  char* report = ohmlore_lint("small.part.json", document, strlen(document));
  char* of_nothing = ohmlore_lint(NULL, NULL, 0);
  const int good = report != NULL && strstr(report, "\"key-missing\"") != NULL &&
                   strstr(report, "\"fails\": true") != NULL && of_nothing != NULL &&
                   strstr(of_nothing, "\"json-syntax\"") != NULL;
  if (report != NULL) puts(report);
  ohmlore_free(report);
  ohmlore_free(of_nothing);
  return good ? 0 : 1;
}
