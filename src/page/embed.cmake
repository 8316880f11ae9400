# Writes OUT, the C file with the parts of a live page: cmake -DWASM=... -DLOADER=... -DSCRIPTS=a,b -DSTYLE=... -DOUT=... -P
cmake_minimum_required(VERSION 3.25)

function(put_part name file)
    file(READ ${file} digits HEX)
    string(LENGTH "${digits}" length)
    math(EXPR length "${length} / 2")
    string(REGEX REPLACE "(..)" "0x\\1," bytes "${digits}")
    string(REPEAT "0x..," 16 line)
    string(REGEX REPLACE "(${line})" "\\1\n" bytes "${bytes}")
    file(APPEND ${OUT} "static const unsigned char ${name}_bytes[] = {\n${bytes}0};\n"
        "const live_part live_${name} = {${name}_bytes, ${length}};\n")
endfunction()

# Neither the time nor the name goes into the packed engine: the same module gives the same bytes.
execute_process(COMMAND gzip -9nc ${WASM} OUTPUT_FILE ${OUT}.gz COMMAND_ERROR_IS_FATAL ANY)
string(REPLACE "," ";" SCRIPTS "${SCRIPTS}")
file(WRITE ${OUT}.js "")
foreach(script ${SCRIPTS})
    file(READ ${script} text)
    file(APPEND ${OUT}.js "${text}")
endforeach()
file(WRITE ${OUT} "/* Made by src/page/embed.cmake. */\n#include \"report/live/live_data.h\"\n")
put_part(engine ${OUT}.gz)
put_part(loader ${LOADER})
put_part(script ${OUT}.js)
put_part(style ${STYLE})
