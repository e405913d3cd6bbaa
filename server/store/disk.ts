import {
  type BigIntStats,
  close as closeOf,
  closeSync,
  constants,
  type Dirent,
  fsync,
  fsyncSync,
  lstat as lstatOf,
  lstatSync,
  open as openOf,
  openSync,
  readdirSync,
  read as readOf,
  readSync,
  write as writeOf,
  writeSync,
} from 'node:fs';
import { link, mkdir, readdir, realpath, rename, rmdir, unlink } from 'node:fs/promises';
import { promisify } from 'node:util';

/** What a file is opened for; one that is made must not be there yet, and no link is ever followed. */
export type Purpose = 'read' | 'make' | 'flush-folder';

/** A file that is open. */
export interface OpenFile {
  /** Reads from a place in the file; returns how many bytes there were. */
  read(into: Uint8Array, at: number): Promise<number>;
  /** Writes at a place in the file; returns how many bytes the disk took, which may be fewer than were given. */
  write(bytes: Uint8Array, at: number): Promise<number>;
  /** Resolves when everything is on the disk itself. */
  flush(): Promise<void>;
  close(): Promise<void>;
}

/**
 * Every operation on files that the store does. Each throws what the file system throws. Tests put another one in
 * its place, which fails where they want it to.
 */
export interface Disk {
  open(path: string, purpose: Purpose, mode?: number): Promise<OpenFile>;
  /** What stands at a path, a link as a link. */
  look(path: string): Promise<BigIntStats>;
  entries(folder: string): Promise<Dirent[]>;
  /** Where a path leads, once every link in it is followed. */
  resolve(path: string): Promise<string>;
  makeFolder(path: string): Promise<void>;
  removeFolder(path: string): Promise<void>;
  removeFile(path: string): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  link(from: string, to: string): Promise<void>;
}

const { O_RDONLY, O_RDWR, O_CREAT, O_EXCL, O_NOFOLLOW = 0, O_NONBLOCK = 0, O_DIRECTORY = 0 } = constants;

/** A pipe opened without O_NONBLOCK would wait for a writer for ever. */
const flags: Readonly<Record<Purpose, number>> = {
  read: O_RDONLY | O_NOFOLLOW | O_NONBLOCK,
  make: O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW,
  'flush-folder': O_RDONLY | O_DIRECTORY,
};

/**
 * What a list does with every job goes by file numbers: `node:fs/promises` makes objects for each look and each open
 * file that take up to twice the time.
 */
const [look, open, read, write, flush, close] = [
  promisify(lstatOf),
  promisify(openOf),
  promisify(readOf),
  promisify(writeOf),
  promisify(fsync),
  promisify(closeOf),
];

const openFile = (number: number): OpenFile => ({
  read: async (into, at) => (await read(number, into, 0, into.length, at)).bytesRead,
  write: async (bytes, at) => (await write(number, bytes, 0, bytes.length, at)).bytesWritten,
  flush: () => flush(number),
  close: () => close(number),
});

/** The disk of this computer. */
export const realDisk: Disk = {
  open: async (path, purpose, mode = 0o644) => openFile(await open(path, flags[purpose], mode)),
  look: (path) => look(path, { bigint: true }),
  entries: (folder) => readdir(folder, { withFileTypes: true }),
  resolve: (path) => realpath(path),
  makeFolder: (path) => mkdir(path),
  removeFolder: (path) => rmdir(path),
  removeFile: (path) => unlink(path),
  rename: (from, to) => rename(from, to),
  link: (from, to) => link(from, to),
};

const waitingFile = (number: number): OpenFile => ({
  read: async (into, at) => readSync(number, into, 0, into.length, at),
  write: async (bytes, at) => writeSync(number, bytes, 0, bytes.length, at),
  flush: async () => fsyncSync(number),
  close: async () => closeSync(number),
});

/**
 * The disk of this computer for a thread that has nothing else to do than wait for it. To look at a file takes a few
 * microseconds, and to have it done beside takes some ten times as long.
 */
export const waitingDisk: Disk = {
  ...realDisk,
  open: async (path, purpose, mode = 0o644) => waitingFile(openSync(path, flags[purpose], mode)),
  look: async (path) => lstatSync(path, { bigint: true }),
  entries: async (folder) => readdirSync(folder, { withFileTypes: true }),
};
