/* What every answer says at its end. */
#ifndef RAILBOW_REPORT_CAUTION_H
#define RAILBOW_REPORT_CAUTION_H

extern const char caution[];

#endif
