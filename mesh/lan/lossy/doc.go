// Package lossy is a network that loses packets, for benchmarks: two threads in
// network namespaces of their own, joined by tunnel devices that a user-space
// switch reads and writes. It needs Linux, root, /dev/net/tun and the ip
// command; where one is missing it says so.
package lossy
