/* Tells, in order, every write, truncation and sync of files under a folder, so that a power cut can be played after.
   Loaded before the program; TOLD_OF names the folder, TOLD_TO the file that is told. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/types.h>
#include <unistd.h>

enum { WRITE = 1, TRUNCATE = 2, SYNC = 3 };
struct told { uint32_t what, length; int64_t at; char name[112]; };

static pthread_mutex_t turn = PTHREAD_MUTEX_INITIALIZER;
static int out = -1;

static void tell(int fd, uint32_t what, const void *data, uint32_t length, int64_t at) {
    const char *folder = getenv("TOLD_OF"), *to = getenv("TOLD_TO");
    char link[64] = "/proc/self/fd/", path[512];
    int digits = 0, rest = fd;
    char number[16];
    if (!folder || !to) return;
    do number[digits++] = '0' + rest % 10; while (rest /= 10);
    for (int i = 0; i < digits; i++) link[14 + i] = number[digits - 1 - i];
    ssize_t size = readlink(link, path, sizeof path - 1);
    if (size < 0) return;
    path[size] = 0;
    if (strncmp(path, folder, strlen(folder))) return;
    struct told told = {what, length, at, {0}};
    const char *name = strrchr(path, '/') + 1;
    strncpy(told.name, name, sizeof told.name - 1);
    pthread_mutex_lock(&turn);
    if (out < 0) out = syscall(SYS_openat, AT_FDCWD, to, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    syscall(SYS_write, out, &told, sizeof told);
    if (length) syscall(SYS_write, out, data, length);
    pthread_mutex_unlock(&turn);
}

#define NEXT(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

ssize_t pwrite(int fd, const void *data, size_t length, off_t at) {
    ssize_t done = NEXT(pwrite)(fd, data, length, at);
    if (done > 0) tell(fd, WRITE, data, done, at);
    return done;
}

ssize_t pwrite64(int fd, const void *data, size_t length, off64_t at) {
    ssize_t done = NEXT(pwrite64)(fd, data, length, at);
    if (done > 0) tell(fd, WRITE, data, done, at);
    return done;
}

int ftruncate(int fd, off_t length) {
    int done = NEXT(ftruncate)(fd, length);
    if (!done) tell(fd, TRUNCATE, 0, 0, length);
    return done;
}

int ftruncate64(int fd, off64_t length) {
    int done = NEXT(ftruncate64)(fd, length);
    if (!done) tell(fd, TRUNCATE, 0, 0, length);
    return done;
}

int fsync(int fd) {
    int done = NEXT(fsync)(fd);
    if (!done) tell(fd, SYNC, 0, 0, 0);
    return done;
}

int fdatasync(int fd) {
    int done = NEXT(fdatasync)(fd);
    if (!done) tell(fd, SYNC, 0, 0, 0);
    return done;
}
