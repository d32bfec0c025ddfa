/* Writes down what a program does to the files of one folder, so that a test can tell what a disk
   would hold had the power gone at any moment. Loaded by LD_PRELOAD; all calls are passed on. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <sys/types.h>

static int log_fd = -1;
static const char *folder;

static void begin(void) {
    if (log_fd >= 0 || !getenv("TRACED_LOG")) return;
    int (*real)(const char *, int, ...) = dlsym(RTLD_NEXT, "open");
    folder = getenv("TRACED_FOLDER");
    log_fd = real(getenv("TRACED_LOG"), O_WRONLY | O_CREAT | O_APPEND, 0600);
}

static ssize_t put(const void *data, size_t size) {
    static ssize_t (*real)(int, const void *, size_t);
    if (!real) real = dlsym(RTLD_NEXT, "write");
    return real(log_fd, data, size);
}

static int path_of(int fd, char *path) {
    char link[40];
    begin();
    if (log_fd < 0 || fd == log_fd) return 0;
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t size = readlink(link, path, 4000);
    if (size < 0) return 0;
    path[size] = 0;
    return strncmp(path, folder, strlen(folder)) == 0;
}

static void told(const char *what, const char *path, long long place, const void *data, size_t size) {
    char head[4200];
    begin();
    if (log_fd < 0) return;
    int length = snprintf(head, sizeof head, "%s\t%s\t%lld\t%zu\n", what, path, place, size);
    put(head, length);
    if (size) put(data, size);
}

ssize_t write(int fd, const void *data, size_t size) {
    static ssize_t (*real)(int, const void *, size_t);
    char path[4001];
    if (!real) real = dlsym(RTLD_NEXT, "write");
    if (path_of(fd, path)) told("write", path, lseek(fd, 0, SEEK_CUR), data, size);
    else if (fd == 1) told("said", "-", 0, data, size);
    return real(fd, data, size);
}

ssize_t pwrite64(int fd, const void *data, size_t size, off64_t place) {
    static ssize_t (*real)(int, const void *, size_t, off64_t);
    char path[4001];
    if (!real) real = dlsym(RTLD_NEXT, "pwrite64");
    if (path_of(fd, path)) told("write", path, place, data, size);
    return real(fd, data, size, place);
}

ssize_t pwrite(int fd, const void *data, size_t size, off_t place) { return pwrite64(fd, data, size, place); }

int ftruncate64(int fd, off64_t size) {
    static int (*real)(int, off64_t);
    char path[4001];
    if (!real) real = dlsym(RTLD_NEXT, "ftruncate64");
    if (path_of(fd, path)) told("cut", path, size, 0, 0);
    return real(fd, size);
}

int ftruncate(int fd, off_t size) { return ftruncate64(fd, size); }

int fsync(int fd) {
    static int (*real)(int);
    char path[4001];
    if (!real) real = dlsym(RTLD_NEXT, "fsync");
    if (path_of(fd, path)) told("sync", path, 0, 0, 0);
    return real(fd);
}

int fdatasync(int fd) {
    static int (*real)(int);
    char path[4001];
    if (!real) real = dlsym(RTLD_NEXT, "fdatasync");
    if (path_of(fd, path)) told("sync", path, 0, 0, 0);
    return real(fd);
}

static void made(int fd) {
    char full[4001];
    if (fd >= 0 && path_of(fd, full)) told("make", full, 0, 0, 0);
}

#define OPENING(name)                                                        \
    int name(const char *path, int flags, ...) {                             \
        static int (*real)(const char *, int, ...);                          \
        va_list list; va_start(list, flags);                                 \
        int mode = flags & O_CREAT ? va_arg(list, int) : 0; va_end(list);    \
        if (!real) real = dlsym(RTLD_NEXT, #name);                           \
        int anew = (flags & O_CREAT) && access(path, F_OK) != 0;             \
        int fd = real(path, flags, mode);                                    \
        if (anew) made(fd);                                                  \
        return fd;                                                           \
    }
OPENING(open)
OPENING(open64)

int unlink(const char *path) {
    static int (*real)(const char *);
    if (!real) real = dlsym(RTLD_NEXT, "unlink");
    int done = real(path);
    begin();
    if (!done && folder && strncmp(path, folder, strlen(folder)) == 0) told("gone", path, 0, 0, 0);
    return done;
}

int rename(const char *from, const char *to) {
    static int (*real)(const char *, const char *);
    if (!real) real = dlsym(RTLD_NEXT, "rename");
    int done = real(from, to);
    begin();
    if (!done && folder && strncmp(to, folder, strlen(folder)) == 0) {
        told("name", from, 0, to, strlen(to));
    }
    return done;
}
