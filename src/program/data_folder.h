/* The one folder in which the program finds the materials table where --materials names none.
 *
 * The installed program has that of its installation (PREFIX/share/railbow), the one in the build tree that of the sources.
 * Nothing is looked for beside the program, in the working folder or in the environment. */
#ifndef RAILBOW_PROGRAM_DATA_FOLDER_H
#define RAILBOW_PROGRAM_DATA_FOLDER_H

extern const char data_folder[];

#endif
