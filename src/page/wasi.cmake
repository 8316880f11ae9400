# Toolchain of the live page's engine: Debian's clang, lld, wasi-libc and libclang-rt-dev-wasm32.
cmake_minimum_required(VERSION 3.25)
set(CMAKE_SYSTEM_NAME Generic)
set(CMAKE_SYSTEM_PROCESSOR wasm32)
set(CMAKE_C_COMPILER clang)
set(CMAKE_C_COMPILER_TARGET wasm32-wasi)
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
set(CMAKE_C_COMPILER_WORKS ON) # its test would want an archiver
set(CMAKE_C_FLAGS_INIT "--sysroot=/usr")
