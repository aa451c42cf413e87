// Package lan moves frames between the devices of one group over the local
// network, and pairs new devices by a short code. It is the only package with
// sockets between devices, and it decides nothing: who is admitted, what a
// frame means and when a link is given up are answered by its caller.
//
// # Sessions
//
// Every device listens on one port: TCP, and one UDP socket that carries QUIC
// (a datagram whose two top bits are clear is not QUIC, see "Finding each
// other"). Both speak TLS 1.3 with a self-signed Ed25519 certificate
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
//	hello   version (1) ‖ msgpack array of Hello, at most 1 KiB in all; a hello
//	        says, among others, on which port its sender listens
//	frame   length (4, big-endian, 1 to 65,536) ‖ bytes
//	QUIC    two bidirectional streams, opened by the dialling side; the first
//	        byte on each names it: 0 taps, 1 catch-up. The hellos go on stream 0
//	TCP     one sequence; before each frame one byte names its stream: 0 taps,
//	        1 catch-up, 255 goodbye (frame: code (1) ‖ words)
//
// # Finding each other
//
// Addresses come from several sources at once, and whatever answers first is
// used: typed ones, those that worked before, beacons, mDNS, and members that
// pass on where they reach others. None of them proves anything; only a session
// does. An address that matches the group is dialled, others are only listed
// while joining.
//
// A beacon is one datagram on the UDP socket:
//
//	kind (1): 1 call, 2 answer ‖ "lintel" (6) ‖ version (1) ‖ port (2, big-endian)
//	‖ nonce (8) ‖ tag (8)
//
// The nonce is random and new with each run. The tag is the first bytes of
// HMAC-SHA-256(group id, nonce), or zeros where the device belongs to no unit.
// So strangers see that there is a device, and whether it belongs to a unit, but
// not to which, nor a name, a person or a room. Calls go to the broadcast
// address of every IPv4 network of the device, to PortDefault and the next
// three: at the start and after a change of address after 0, 1, 2 and 4 s, then
// every 10 to 12 s. A call that matches is answered to where it came from, once
// a second for each address at most.
//
// By mDNS the same is said as a service "_lintel._udp" with an instance and a
// host name that are random and new with each run, and the texts
//
//	v=1 (version)  p= port  n= nonce (16 hexadecimal digits)  t= tag (16)
//
// Devices ask after 0, 2 and 6 s, then every 30 to 35 s, for answers to
// themselves alone; other software's questions are answered to everybody too,
// once a second on each interface at most. Of answers only an address within
// the networks of the interface is taken.
//
// At most 256 addresses that match and 64 others are kept, the oldest go; one
// that matched is let go when it was not found again and had no link for 5
// minutes. A device that only listens on loopback looks for nobody.
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
// # Pictures
//
// A session to fetch one picture is negotiated as "picture/1", on one stream
// (QUIC: its name, 0, goes first); both keys are compared with the members, as
// for frames. Pictures are asked for one at a time by hash, beside the link, so
// that a large one never stands before a tap:
//
//	dialling  -> ask     version (1) ‖ group (32) ‖ hash (32)
//	accepting -> answer  code (1): 0 not held, 1 held, 2 come later ‖ length (4,
//	                     big-endian, at most PictureLenMax; 0 unless held) ‖ bytes
//
// The asking side compares the bytes with the hash and closes. At most
// Limits.PicturesAtOnce are given at one time, each within Limits.PictureWithin.
// Who has a link with a device dials it where it says that it listens: a device
// that lets nobody dial it gives no pictures, and fetches all the same.
//
// # What is not protected
//
// Anybody on the network can see that devices talk, how much, and from which
// addresses; can keep them from talking; and can use up a shown code. Nothing
// here proves who holds a device. The key exchange is classical (X25519), so
// recorded traffic does not withstand a future quantum computer.
package lan
