// The headers from C++: they must compile and link there as well.
#include <gsl/gsl_errno.h>
#include <railbow/railbow.h>

int main()
{
    gsl_set_error_handler_off();
    rbow_section section;
    return rbow_section_of(1.25, 0.058, &section) == RBOW_OK && section.area > 0.217 && section.area < 0.2172 ? 0 : 1;
}
