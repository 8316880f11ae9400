"use strict";
/* Runs the program: a WASI command with files in memory. The page, its worker and the tests in Node use this file as it is.
 *
 * engineOf(module) gives run(words, files, input):
 *   words  the command line, without the name of the program: ["check", "nose.csv"]
 *   files  an object: path -> Uint8Array. It is not changed
 *   input  Uint8Array on stdin, or nothing
 * Returned: {status, out, err, files}: exit status, what stood on stdout and stderr (Uint8Array), and every file that the run
 * wrote. Each run has an instance of its own: nothing is left behind. */

function engineOf(module) {
  const OK = 0, BADF = 8, EXIST = 20, INVAL = 28, ISDIR = 31, NOENT = 44, NOTDIR = 54, NOTEMPTY = 55;
  const DIRECTORY = 3, REGULAR = 4;
  const encoder = new TextEncoder(), decoder = new TextDecoder();

  /* A file that grows while it is written. */
  function growing(bytes) {
    return { bytes: bytes || new Uint8Array(0), size: bytes ? bytes.length : 0, changed: false };
  }

  function put(node, at, bytes) {
    const end = at + bytes.length;
    if (end > node.bytes.length || !node.changed) {
      const more = new Uint8Array(Math.max(end, 2 * node.size, 256));
      more.set(node.bytes.subarray(0, node.size));
      node.bytes = more;
    }
    node.bytes.set(bytes, at);
    node.size = Math.max(node.size, end);
    node.changed = true;
  }

  const contents = (node) => node.bytes.subarray(0, node.size);

  /* "./a//b/" -> "a/b"; the root is "". */
  const plain = (path) => path.split("/").filter((part) => part !== "" && part !== ".").join("/");

  function treeOf(files) {
    const nodes = new Map(), folders = new Set([""]);
    const folderOf = (path) => path.slice(0, Math.max(0, path.lastIndexOf("/")));
    const addFolders = (path) => {
      for (let folder = folderOf(path); !folders.has(folder); folder = folderOf(folder)) folders.add(folder);
    };
    for (const name of Object.keys(files)) {
      nodes.set(plain(name), growing(files[name]));
      addFolders(plain(name));
    }
    return { nodes, folders, folderOf };
  }

  class Exit {
    constructor(status) { this.status = status; }
  }

  return function run(words, files, input) {
    const { nodes, folders, folderOf } = treeOf(files);
    const numbers = new Map(); /* of nodes and folders, for st_ino */
    const stdin = growing(input), stdout = growing(), stderr = growing();
    const open = [{ node: stdin, at: 0 }, { node: stdout, at: 0 }, { node: stderr, at: 0 }, { folder: "" }];
    const given = ["railbow", ...words].map((word) => encoder.encode(word + "\0"));
    let memory;
    const view = () => new DataView(memory.buffer);
    const bytesAt = (at, n) => new Uint8Array(memory.buffer, at, n);
    const textAt = (at, n) => decoder.decode(bytesAt(at, n));
    const numberOf = (thing) => {
      if (!numbers.has(thing)) numbers.set(thing, numbers.size + 1);
      return numbers.get(thing);
    };
    const pathAt = (fd, at, n) => {
      const base = open[fd];
      return base && base.folder !== undefined ? plain(base.folder + "/" + textAt(at, n)) : null;
    };

    function putStatus(at, type, size, number) {
      const v = view();
      for (let i = 0; i < 64; i++) v.setUint8(at + i, 0);
      v.setBigUint64(at, 1n, true);
      v.setBigUint64(at + 8, BigInt(number), true);
      v.setUint8(at + 16, type);
      v.setBigUint64(at + 24, 1n, true);
      v.setBigUint64(at + 32, BigInt(size), true);
    }

    /* The pieces of memory that a read or write names. */
    function pieces(at, count) {
      const v = view(), list = [];
      for (let i = 0; i < count; i++) list.push(bytesAt(v.getUint32(at + 8 * i, true), v.getUint32(at + 8 * i + 4, true)));
      return list;
    }

    function openPath(fd, flags, at, n, opening, rightsBase, rightsInheriting, fdFlags, result) {
      const path = pathAt(fd, at, n);
      if (path === null) return BADF;
      const create = opening & 1, wantsFolder = opening & 2, only = opening & 4, truncate = opening & 8;
      if (folders.has(path)) {
        if (create && only) return EXIST;
        if (create || truncate) return ISDIR;
        view().setUint32(result, open.push({ folder: path }) - 1, true);
        return OK;
      }
      let node = nodes.get(path);
      if (wantsFolder) return node ? NOTDIR : NOENT;
      if (node && create && only) return EXIST;
      if (!node && !create) return NOENT;
      if (!node && !folders.has(folderOf(path))) return NOENT;
      if (!node || truncate) {
        node = growing();
        node.changed = true;
        nodes.set(path, node);
      }
      view().setUint32(result, open.push({ node, at: 0 }) - 1, true);
      return OK;
    }

    const calls = {
      args_sizes_get(count, size) {
        view().setUint32(count, given.length, true);
        view().setUint32(size, given.reduce((sum, word) => sum + word.length, 0), true);
        return OK;
      },
      args_get(pointers, at) {
        given.forEach((word, i) => {
          view().setUint32(pointers + 4 * i, at, true);
          bytesAt(at, word.length).set(word);
          at += word.length;
        });
        return OK;
      },
      environ_sizes_get(count, size) {
        view().setUint32(count, 0, true);
        view().setUint32(size, 0, true);
        return OK;
      },
      environ_get: () => OK,
      clock_time_get(id, precision, at) {
        view().setBigUint64(at, BigInt(Math.round(performance.now() * 1e6)), true);
        return OK;
      },
      fd_close(fd) {
        if (!open[fd]) return BADF;
        open[fd] = null;
        return OK;
      },
      fd_fdstat_get(fd, at) {
        if (!open[fd]) return BADF;
        const v = view();
        for (let i = 0; i < 24; i++) v.setUint8(at + i, 0);
        v.setUint8(at, open[fd].folder !== undefined ? DIRECTORY : fd > 2 ? REGULAR : 0);
        v.setBigUint64(at + 8, 0xFFFFFFFFn, true);
        v.setBigUint64(at + 16, 0xFFFFFFFFn, true);
        return OK;
      },
      fd_fdstat_set_flags: () => OK,
      fd_filestat_get(fd, at) {
        const file = open[fd];
        if (!file) return BADF;
        if (file.folder !== undefined) putStatus(at, DIRECTORY, 0, numberOf(file.folder));
        else putStatus(at, fd > 2 ? REGULAR : 0, file.node.size, numberOf(file.node));
        return OK;
      },
      fd_prestat_get(fd, at) {
        if (fd !== 3) return BADF;
        view().setUint32(at, 0, true);
        view().setUint32(at + 4, 1, true);
        return OK;
      },
      fd_prestat_dir_name(fd, at) {
        if (fd !== 3) return BADF;
        bytesAt(at, 1).set([47]);
        return OK;
      },
      fd_read(fd, at, count, result) {
        const file = open[fd];
        if (!file) return BADF;
        if (!file.node) return ISDIR;
        let got = 0;
        for (const piece of pieces(at, count)) {
          const part = file.node.bytes.subarray(file.at, Math.min(file.node.size, file.at + piece.length));
          piece.set(part);
          file.at += part.length;
          got += part.length;
        }
        view().setUint32(result, got, true);
        return OK;
      },
      fd_write(fd, at, count, result) {
        const file = open[fd];
        if (!file || !file.node) return BADF;
        let written = 0;
        for (const piece of pieces(at, count)) {
          put(file.node, file.at, piece);
          file.at += piece.length;
          written += piece.length;
        }
        view().setUint32(result, written, true);
        return OK;
      },
      fd_seek(fd, offset, whence, result) {
        const file = open[fd];
        if (!file || !file.node) return BADF;
        const to = Number(offset) + [0, file.at, file.node.size][whence];
        if (!(to >= 0)) return INVAL;
        file.at = to;
        view().setBigUint64(result, BigInt(to), true);
        return OK;
      },
      fd_sync: () => OK,
      path_open: openPath,
      path_filestat_get(fd, flags, at, n, result) {
        const path = pathAt(fd, at, n), node = nodes.get(path);
        if (path !== null && folders.has(path)) putStatus(result, DIRECTORY, 0, numberOf(path));
        else if (node) putStatus(result, REGULAR, node.size, numberOf(node));
        else return NOENT;
        return OK;
      },
      path_create_directory(fd, at, n) {
        const path = pathAt(fd, at, n);
        if (folders.has(path) || nodes.has(path)) return EXIST;
        if (!folders.has(folderOf(path))) return NOENT;
        folders.add(path);
        return OK;
      },
      path_readlink: (fd, at, n) => (nodes.has(pathAt(fd, at, n)) ? INVAL : NOENT),
      path_remove_directory(fd, at, n) {
        const path = pathAt(fd, at, n);
        if (!folders.has(path)) return NOENT;
        if ([...nodes.keys()].some((name) => name.startsWith(path + "/"))) return NOTEMPTY;
        folders.delete(path);
        return OK;
      },
      path_rename(fd, at, n, newFd, newAt, newN) {
        const from = pathAt(fd, at, n), to = pathAt(newFd, newAt, newN);
        if (folders.has(from)) {
          if (nodes.has(to) || [...nodes.keys()].some((name) => name.startsWith(to + "/"))) return NOTEMPTY;
          folders.delete(from);
          folders.add(to);
          for (const name of [...nodes.keys()].filter((name) => name.startsWith(from + "/"))) {
            nodes.set(to + name.slice(from.length), nodes.get(name));
            nodes.delete(name);
          }
          return OK;
        }
        if (!nodes.has(from)) return NOENT;
        if (folders.has(to)) return ISDIR;
        nodes.set(to, nodes.get(from));
        nodes.delete(from);
        return OK;
      },
      path_unlink_file(fd, at, n) {
        const path = pathAt(fd, at, n);
        if (folders.has(path)) return ISDIR;
        return nodes.delete(path) ? OK : NOENT;
      },
      /* Whether there is more to read: always, files are in memory. */
      poll_oneoff(asked, events, count, result) {
        const v = view();
        let ready = 0;
        for (let i = 0; i < count; i++) {
          const type = v.getUint8(asked + 48 * i + 8);
          if (type === 0) continue; /* the clock */
          for (let k = 0; k < 32; k++) v.setUint8(events + 32 * ready + k, 0);
          v.setBigUint64(events + 32 * ready, v.getBigUint64(asked + 48 * i, true), true);
          v.setUint8(events + 32 * ready + 10, type);
          v.setBigUint64(events + 32 * ready + 16, 1n, true);
          ready++;
        }
        v.setUint32(result, ready, true);
        return OK;
      },
      proc_exit(status) { throw new Exit(status); },
    };

    const instance = new WebAssembly.Instance(module, { wasi_snapshot_preview1: calls });
    memory = instance.exports.memory;
    let status = 0;
    try {
      instance.exports._start();
    } catch (end) {
      if (!(end instanceof Exit)) throw end;
      status = end.status;
    }
    const written = {};
    for (const [name, node] of nodes) if (node.changed) written[name] = contents(node).slice();
    return { status, out: contents(stdout), err: contents(stderr), files: written };
  };
}
