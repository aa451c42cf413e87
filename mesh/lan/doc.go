// Package lan moves frames between the devices of one group over the local
// network, and pairs new devices by a short code. It is the only package with
// sockets between devices, and it decides nothing: who is admitted, what a
// frame means and when a link is given up are answered by its caller.
//
// # Sessions
//
// Every device listens on one port: TCP, and one UDP socket that carries QUIC
// (a datagram whose two top bits are clear is not QUIC; those are left for
// finding devices). Both speak TLS 1.3 with a self-signed Ed25519 certificate
// on each side. The key in it is the device; it is compared with the admitted
// keys on both sides before anything else is said. Session tickets and early
// data are off.
//
// A session for frames is negotiated as "feed/1". The accepting side speaks
// first, after it has checked the dialling side's certificate:
//
//	accepting -> hello -> dialling      (what stands already between the two)
//	dialling  -> hello -> accepting     (only on the one connection it keeps)
//
// Both send frames only behind their own hello, and a link is up only after
// the other's. So of QUIC and TCP, which the dialling side starts one after the
// other, only the first to bring a hello becomes a link.
//
//	hello   version (1) ‖ msgpack array of Hello, at most 1 KiB in all
//	frame   length (4, big-endian, 1 to 65,536) ‖ bytes
//	QUIC    two bidirectional streams, opened by the dialling side; the first
//	        byte on each names it: 0 taps, 1 catch-up. The hellos go on stream 0
//	TCP     one sequence; before each frame one byte names its stream: 0 taps,
//	        1 catch-up, 255 goodbye (frame: code (1) ‖ words)
//
// # Which connection stays
//
// Each connection has a rank, known to both sides, and the highest stays: by
// epoch, then the one dialled by the smaller key, then the dialling side's
// newer one. The epoch is that of the link that stands, plus one when the
// dialling side has a reason to doubt it (after a sleep, say). A connection
// from a new run of the program replaces any link with its former run. Ranks
// make the outcome the same on both sides, whatever arrives first.
//
// # Pairing
//
// A session to join a group is negotiated as "pair/1", on one stream; the keys
// are not compared with anything. The side that types the code dials. Each
// message is a frame, its first byte the message's number, then a msgpack
// array; at most 1 KiB each until the code is proved:
//
//	typing  -> 1 begin   {role, share}
//	showing -> 2 share   {share}
//	joiner  -> 3 confirm {tag}
//	member  -> 3 confirm {tag}
//	joiner  -> 4 about   {name, port}
//	member  -> 5 welcome {group, founding, inviter, admission, port}
//	joiner  -> 6 done    {}
//	either  -> 7 refused {why, tries left, seconds}   instead of any of these
//
// A code can be tried Limits.CodeTries times. The showing side counts a
// confirmation that does not hold, and, as the joiner, everything but success
// once it has confirmed itself: a false member could test one guess with that.
// The typing side counts likewise, for what it dialled may be the false one.
//
// The shares are those of CPace (see cpace.go). The session id is the TLS
// exporter's value, and the channel identifier names both keys as each side's
// TLS saw them with their roles, so a man in the middle with two TLS sessions
// is refused by both sides even if he copies every byte.
//
// # What is not protected
//
// Anybody on the network can see that devices talk, how much, and from which
// addresses; can keep them from talking; and can use up a shown code. Nothing
// here proves who holds a device. The key exchange is classical (X25519), so
// recorded traffic does not withstand a future quantum computer.
package lan
