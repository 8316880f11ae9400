/* Base64 of RFC 4648, section 4: any bytes as letters that no markup is made of. */
#ifndef RAILBOW_REPORT_LIVE_BASE64_H
#define RAILBOW_REPORT_LIVE_BASE64_H

#include "table/text.h"

void base64_put(text *out, const void *bytes, size_t n);

#endif
