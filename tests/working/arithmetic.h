/* Does the arithmetic of a step again, from the numbers that it prints: + − × / ² ³ ^4 √( ) ° π and functions. */
#ifndef TESTS_WORKING_ARITHMETIC_H
#define TESTS_WORKING_ARITHMETIC_H

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

typedef struct arithmetic {
    const char *at;
    bool failed;
} arithmetic;

static inline double arithmetic_sum(arithmetic *a);

static inline bool arithmetic_took(arithmetic *a, const char *sign)
{
    while (*a->at == ' ') a->at++;
    if (strncmp(a->at, sign, strlen(sign)) != 0) return false;
    a->at += strlen(sign);
    return true;
}

static inline double arithmetic_function(const char *name, double x, double y)
{
    return strcmp(name, "√(") == 0 ? sqrt(x) : strcmp(name, "sin(") == 0 ? sin(x) : strcmp(name, "cos(") == 0 ? cos(x)
        : strcmp(name, "tan(") == 0 ? tan(x) : strcmp(name, "sinh(") == 0 ? sinh(x) : strcmp(name, "cosh(") == 0 ? cosh(x)
        : strcmp(name, "tanh(") == 0 ? tanh(x) : strcmp(name, "asin(") == 0 ? asin(x) : strcmp(name, "max(") == 0 ? fmax(x, y)
        : strcmp(name, "min(") == 0 ? fmin(x, y) : x;
}

static inline double arithmetic_value(arithmetic *a)
{
    static const char *const names[] = {"√(", "sinh(", "sin(", "cosh(", "cos(", "tanh(", "tan(", "asin(", "max(", "min(", "("};
    if (arithmetic_took(a, "π")) return 3.14159265358979323846;
    if (arithmetic_took(a, "no limit")) return INFINITY;
    if (arithmetic_took(a, "−")) return -arithmetic_value(a);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (!arithmetic_took(a, names[i])) continue;
        double x = arithmetic_sum(a), y = x;
        if (arithmetic_took(a, ",")) y = arithmetic_sum(a);
        while (arithmetic_took(a, ",")) y = fmin(y, arithmetic_sum(a));
        if (!arithmetic_took(a, ")")) a->failed = true;
        return arithmetic_function(names[i], x, y);
    }
    char *end;
    const double x = strtod(a->at, &end);
    if (end == a->at) a->failed = true;
    a->at = end;
    return x;
}

static inline double arithmetic_power(arithmetic *a)
{
    double x = arithmetic_value(a);
    if (arithmetic_took(a, "°")) x *= 3.14159265358979323846 / 180;
    if (arithmetic_took(a, "²")) return x * x;
    if (arithmetic_took(a, "³")) return x * x * x;
    if (arithmetic_took(a, "^")) return pow(x, arithmetic_value(a));
    return x;
}

static inline double arithmetic_product(arithmetic *a)
{
    double x = arithmetic_power(a);
    for (;;)
        if (arithmetic_took(a, "×")) x *= arithmetic_power(a);
        else if (arithmetic_took(a, "/")) x /= arithmetic_power(a);
        else return x;
}

static inline double arithmetic_sum(arithmetic *a)
{
    double x = arithmetic_product(a);
    for (;;)
        if (arithmetic_took(a, "+")) x += arithmetic_product(a);
        else if (arithmetic_took(a, "−")) x -= arithmetic_product(a);
        else return x;
}

/* Returned: NaN where the words are no arithmetic. */
static inline double arithmetic_of(const char *numbers)
{
    arithmetic a = {numbers, false};
    const double x = arithmetic_sum(&a);
    while (*a.at == ' ') a.at++;
    return a.failed || *a.at != '\0' ? (double)NAN : x;
}

#endif
