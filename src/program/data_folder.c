#include "program/data_folder.h"

/* Compiled twice: for the program in the build tree and for the one that is installed. */
const char data_folder[] = RAILBOW_DATA;
