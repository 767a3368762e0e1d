/* A length longer than its memory, which nobody can see but a sanitizer: it must, inside the library. */
#include "border.h"

int main(void) {
    char *bytes = malloc(8);
    lw_site *site = NULL;
    memset(bytes, ' ', 8);
    lw_site_parse("a", 1, bytes, 64, &site, NULL);
    free(bytes);
    return 0;
}
