#include <railbow/status.h>

#define TEXT_CASE(name, value, input, text)                                                                    \
    case name: return text;
#define INPUT_CASE(name, value, input, text)                                                                   \
    case name: return input;

const char *rbow_status_text(rbow_status status)
{
    switch (status) {
        RBOW_STATUS_LIST(TEXT_CASE)
        case RBOW_STATUS_END_: break;
    }
    return "unknown status";
}

const char *rbow_status_input(rbow_status status)
{
    switch (status) {
        RBOW_STATUS_LIST(INPUT_CASE)
        case RBOW_STATUS_END_: break;
    }
    return "";
}
