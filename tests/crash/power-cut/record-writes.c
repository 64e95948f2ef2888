/*
 * Records what a program asks of its disk: every write, cut and sync of a file in one folder, and what it writes to its
 * standard output, in one order. Loaded before the C library (LD_PRELOAD). Syncs are written down and not carried out: what
 * a power cut would leave is worked out afterwards from the record, for any moment.
 *
 * POWER_CUT_FOLDER: the folder that is watched. POWER_CUT_LOG: where the record goes.
 * A record: kind, length of the path, length of the data (4 bytes each), offset (8 bytes), path, data.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { MADE = 1, WRITTEN, CUT, SYNCED, REMOVED, TOLD };

#define MOST_FILES 4096
static char *path_of[MOST_FILES];
static int log_file = -1;
static const char *folder;
static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;

static int (*real_open)(const char *, int, ...);
static ssize_t (*real_write)(int, const void *, size_t);
static ssize_t (*real_pwrite)(int, const void *, size_t, off64_t);
static int (*real_ftruncate)(int, off64_t);
static int (*real_close)(int);
static int (*real_unlink)(const char *);
static int (*real_fsync)(int);

__attribute__((constructor)) static void begin(void) {
  real_open = dlsym(RTLD_NEXT, "open64");
  real_write = dlsym(RTLD_NEXT, "write");
  real_pwrite = dlsym(RTLD_NEXT, "pwrite64");
  real_ftruncate = dlsym(RTLD_NEXT, "ftruncate64");
  real_close = dlsym(RTLD_NEXT, "close");
  real_unlink = dlsym(RTLD_NEXT, "unlink");
  real_fsync = dlsym(RTLD_NEXT, "fsync");
  folder = getenv("POWER_CUT_FOLDER");
  const char *name = getenv("POWER_CUT_LOG");
  if (folder != NULL && name != NULL) log_file = real_open(name, O_CREAT | O_WRONLY | O_APPEND | O_CLOEXEC, 0600);
}

static void record(uint32_t kind, const char *path, uint64_t offset, const void *data, uint32_t length) {
  if (log_file < 0) return;
  uint32_t path_length = (uint32_t)strlen(path);
  size_t all = 20 + path_length + length;
  char *bytes = malloc(all);
  memcpy(bytes, &kind, 4);
  memcpy(bytes + 4, &path_length, 4);
  memcpy(bytes + 8, &length, 4);
  memcpy(bytes + 12, &offset, 8);
  memcpy(bytes + 20, path, path_length);
  if (length > 0) memcpy(bytes + 20 + path_length, data, length);
  pthread_mutex_lock(&lock);
  for (size_t done = 0; done < all;) {
    ssize_t wrote = real_write(log_file, bytes + done, all - done);
    if (wrote <= 0) abort();
    done += (size_t)wrote;
  }
  pthread_mutex_unlock(&lock);
  free(bytes);
}

/* The shared memory of the write-ahead log is no file in this sense: it is made anew after a power cut. */
static int watched(const char *path) {
  if (folder == NULL || strncmp(path, folder, strlen(folder)) != 0) return 0;
  size_t length = strlen(path);
  return length < 4 || strcmp(path + length - 4, "-shm") != 0;
}

static const char *path_at(int file) {
  return file >= 0 && file < MOST_FILES ? path_of[file] : NULL;
}

static int opened(const char *path, int flags, mode_t mode) {
  struct stat about;
  int is_new = watched(path) && (flags & O_CREAT) && stat(path, &about) != 0;
  int file = real_open(path, flags, mode);
  if (file >= 0 && file < MOST_FILES && watched(path)) {
    free(path_of[file]);
    path_of[file] = strdup(path);
    if (is_new) record(MADE, path, 0, NULL, 0);
    else if (flags & O_TRUNC) record(CUT, path, 0, NULL, 0);
  }
  return file;
}

int open(const char *path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t mode = flags & O_CREAT ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  return opened(path, flags, mode);
}

int open64(const char *path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t mode = flags & O_CREAT ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  return opened(path, flags, mode);
}

ssize_t write(int file, const void *data, size_t length) {
  const char *path = path_at(file);
  off64_t offset = path != NULL ? lseek64(file, 0, SEEK_CUR) : 0;
  /* Told is what has gone out: written down first, it would be asked of the disk before it was said. */
  ssize_t wrote = real_write(file, data, length);
  if (wrote > 0 && path != NULL) record(WRITTEN, path, (uint64_t)offset, data, (uint32_t)wrote);
  if (wrote > 0 && file == 1) record(TOLD, "", 0, data, (uint32_t)wrote);
  return wrote;
}

ssize_t pwrite64(int file, const void *data, size_t length, off64_t offset) {
  ssize_t wrote = real_pwrite(file, data, length, offset);
  const char *path = path_at(file);
  if (wrote > 0 && path != NULL) record(WRITTEN, path, (uint64_t)offset, data, (uint32_t)wrote);
  return wrote;
}

ssize_t pwrite(int file, const void *data, size_t length, off_t offset) {
  return pwrite64(file, data, length, offset);
}

int ftruncate64(int file, off64_t length) {
  int failed = real_ftruncate(file, length);
  const char *path = path_at(file);
  if (!failed && path != NULL) record(CUT, path, (uint64_t)length, NULL, 0);
  return failed;
}

int ftruncate(int file, off_t length) {
  return ftruncate64(file, length);
}

int fsync(int file) {
  const char *path = path_at(file);
  if (path == NULL) return real_fsync(file);
  record(SYNCED, path, 0, NULL, 0);
  return 0;
}

int fdatasync(int file) {
  return fsync(file);
}

int unlink(const char *path) {
  int failed = real_unlink(path);
  if (!failed && watched(path)) record(REMOVED, path, 0, NULL, 0);
  return failed;
}

int close(int file) {
  if (file >= 0 && file < MOST_FILES) {
    free(path_of[file]);
    path_of[file] = NULL;
  }
  return real_close(file);
}
