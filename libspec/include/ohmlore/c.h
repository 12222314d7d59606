/* The C interface: for other languages and for WebAssembly. Text is UTF-8. The shared library has these
   functions and no others. Any number of threads may call them at once. */
#ifndef OHMLORE_C_H
#define OHMLORE_C_H

#include <stddef.h>

#if defined(__GNUC__)
#define OHMLORE_EXPORT __attribute__((visibility("default")))
#else
#define OHMLORE_EXPORT
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* Version of the library, for example "1.0.0"; never freed. */
OHMLORE_EXPORT const char* ohmlore_version(void);

/* Lints one document by itself (no corpus around it, so that parts stay unresolved) and returns the report as
   JSON (spec/v1/report.schema.json). `name` is shown in findings and decides about rules on file names; null
   is no name, and null bytes are none. Waivers hold whatever their last day. The caller frees the text with
   ohmlore_free. Null only where memory ran out. */
OHMLORE_EXPORT char* ohmlore_lint(const char* name, const char* bytes, size_t size);

/* Frees a text that this library returned; null is allowed. */
OHMLORE_EXPORT void ohmlore_free(char* text);

#ifdef __cplusplus
}
#endif

#endif
