/* In place of the parts of a live page, where the program is built without them. */
#include "report/live/live_data.h"

const live_part live_engine = {NULL, 0};
const live_part live_loader = {NULL, 0};
const live_part live_script = {NULL, 0};
const live_part live_style = {NULL, 0};
