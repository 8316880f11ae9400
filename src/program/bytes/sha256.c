#include "program/bytes/sha256.h"

#include <stdio.h>
#include <string.h>

/* NIST FIPS 180-4 (2015), section 4.2.2: the first 32 bits of the fractional parts of the cube roots of the first sixty-four
 * primes; 5.3.3: of the square roots of the first eight. */
static const uint32_t rounds[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5, 0xd807aa98, 0x12835b01,
    0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174, 0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc,
    0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da, 0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147,
    0x06ca6351, 0x14292967, 0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070, 0x19a4c116, 0x1e376c08,
    0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3, 0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208,
    0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

static const uint32_t start[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};

static uint32_t turned(uint32_t x, int by)
{
    return x >> by | x << (32 - by);
}

/* Section 6.2.2, step 1. */
static void spread(uint32_t words[64], const unsigned char block[SHA256_BLOCK])
{
    for (int t = 0; t < 16; t++)
        words[t] = (uint32_t)block[4 * t] << 24 | (uint32_t)block[4 * t + 1] << 16 | (uint32_t)block[4 * t + 2] << 8
            | block[4 * t + 3];
    for (int t = 16; t < 64; t++) {
        const uint32_t near = words[t - 2], far = words[t - 15];
        words[t] = (turned(near, 17) ^ turned(near, 19) ^ near >> 10) + words[t - 7]
            + (turned(far, 7) ^ turned(far, 18) ^ far >> 3) + words[t - 16];
    }
}

/* Steps 2 to 4; v[0] ... v[7] are the working variables a ... h. */
static void take_block(uint32_t state[8], const unsigned char block[SHA256_BLOCK])
{
    uint32_t words[64], v[8];
    spread(words, block);
    memcpy(v, state, sizeof v);
    for (int t = 0; t < 64; t++) {
        const uint32_t choice = (v[4] & v[5]) ^ (~v[4] & v[6]), majority = (v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]);
        const uint32_t one = v[7] + (turned(v[4], 6) ^ turned(v[4], 11) ^ turned(v[4], 25)) + choice + rounds[t] + words[t];
        const uint32_t two = (turned(v[0], 2) ^ turned(v[0], 13) ^ turned(v[0], 22)) + majority;
        memmove(v + 1, v, 7 * sizeof *v);
        v[4] += one;
        v[0] = one + two;
    }
    for (int i = 0; i < 8; i++) state[i] += v[i];
}

void sha256_start(sha256 *s)
{
    *s = (sha256){.bytes = 0};
    memcpy(s->state, start, sizeof start);
}

void sha256_add(sha256 *s, const void *bytes, size_t n)
{
    const unsigned char *at = bytes;
    while (n > 0) {
        const size_t held = s->bytes % SHA256_BLOCK, room = SHA256_BLOCK - held, taken = n < room ? n : room;
        memcpy(s->block + held, at, taken);
        s->bytes += taken;
        at += taken;
        n -= taken;
        if (s->bytes % SHA256_BLOCK == 0) take_block(s->state, s->block);
    }
}

/* Section 5.1.1: a 1 bit, zeros, and the length in bits. */
void sha256_end(sha256 *s, char digits[SHA256_DIGITS + 1])
{
    static const unsigned char padding[SHA256_BLOCK] = {0x80};
    const uint64_t bits = 8 * s->bytes;
    const size_t held = s->bytes % SHA256_BLOCK, zeros_to = SHA256_BLOCK - 8;
    unsigned char length[8];
    for (int i = 0; i < 8; i++) length[i] = (unsigned char)(bits >> (56 - 8 * i));
    sha256_add(s, padding, held < zeros_to ? zeros_to - held : zeros_to + SHA256_BLOCK - held);
    sha256_add(s, length, sizeof length);
    for (int i = 0; i < 8; i++) snprintf(digits + 8 * i, 9, "%08x", (unsigned)s->state[i]);
}
