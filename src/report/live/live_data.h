/* The parts of a live page, as the build puts them into the program (src/page/embed.cmake). */
#ifndef RAILBOW_REPORT_LIVE_LIVE_DATA_H
#define RAILBOW_REPORT_LIVE_LIVE_DATA_H

#include <stddef.h>

typedef struct live_part {
    const unsigned char *bytes;
    size_t length; /* 0 for none */
} live_part;

extern const live_part live_engine; /* the WebAssembly module, packed with gzip */
extern const live_part live_loader; /* engine.js */
extern const live_part live_script; /* the other scripts, one after the other */
extern const live_part live_style;

#endif
