/* The bytes of a file as UTF-8: a byte-order mark passed over, UTF-16 with one changed. */
#ifndef RAILBOW_TABLE_TEXT_DECODER_H
#define RAILBOW_TABLE_TEXT_DECODER_H

#include "table/text.h"

enum { DECODER_HEAD = 4 };

typedef enum text_encoding { TEXT_UNKNOWN, TEXT_UTF8, TEXT_UTF16_LITTLE, TEXT_UTF16_BIG, TEXT_BINARY } text_encoding;

typedef struct text_decoder {
    text_encoding encoding;  /* known once the head was met, or the file has ended */
    unsigned char head[DECODER_HEAD];
    size_t head_count;
    unsigned char half;      /* the first byte of a UTF-16 unit, if has_half */
    bool has_half;
    unsigned long high;      /* a high surrogate that waits for its other half; 0 for none */
    text decoded;            /* what UTF-16 became; emptied by every call */
    const char *fault;       /* of TEXT_BINARY: what to do about it */
} text_decoder;

typedef struct text_part {
    const char *at;
    size_t n;
} text_part;

/* Given:    bytes, n  the next part of the file; n = 0 says that it has ended
 *           rest      takes what follows the head as UTF-8, or (part.n = 0) nothing
 * Returned: what the head came to as UTF-8, which goes before `rest`. Both are valid until the next call. What is no
 *           UTF-16 becomes bytes that are no UTF-8. */
text_part text_decode(text_decoder *d, const char *bytes, size_t n, text_part *rest);

void text_decoder_free(text_decoder *d);

#endif
