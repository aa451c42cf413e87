// Package disk keeps a device's log: it carries out the writes that a
// mesh.Peer asks for, and finds everything again after a crash. It decides
// nothing about entries; it promises that what Append returned nil for is
// found by every later Open, or that the place where it is missing is named.
//
// # Folder
//
//	DIR/lock                          one process per data folder (LockFolder)
//	DIR/device.key                    the device's private key, mode 0600 (LoadKey)
//	DIR/groups/<64 hex digits>/       one folder per group
//	    lock                          one writer per log
//	    00000001.seg, 00000002.seg …  the log
//	    mark                          where the log lives and how far it reached
//	    aside/NNNNNNNN-from-to.bin    damaged bytes of segment N, set aside
//
// A file that is replaced is first written as NAME.new, synced, renamed, and
// its folder synced. A NAME.new that is left over means nothing.
//
// # Log, format 1
//
// A log is a row of segments of at most SegmentLenMax bytes, a segment a header
// and whole batches. One Append is one batch, one write, one sync; when it
// begins a segment, the folder is synced too before the batch counts. Integers
// are big-endian. Every checksum is CRC-32C (Castagnoli, RFC 3720).
//
// Segment header, 60 bytes:
//
//	 0  8  "LintelSg"
//	 8  4  format, 1
//	12 32  group
//	44  8  number of the segment, from 1, as in its name
//	52  4  checksum of the whole segment before as it stood when this one
//	       began; 0 in the first
//	56  4  checksum of bytes 0…55
//
// Batch header, 36 bytes:
//
//	 0  4  0xC1 "Bat"
//	 4  8  number, 1 more than the batch before, over the whole log
//	12  8  checked: every batch up to this number was synced, and the
//	       signatures in it verified, when this batch was written
//	20  4  how many records
//	24  4  how many void marks
//	28  4  length of the body, which follows
//	32  4  checksum of the group's 32 bytes and bytes 0…31
//
// The body holds the records, then the void marks. A record, 17 bytes more than
// its entry, or 81 with a signature:
//
//	 0  4  length n of the entry, at most mesh.EntryLenMax
//	 4  8  when it was received, milliseconds since 1970 UTC
//	12  1  flags: 1 = a signature follows; the others are 0
//	13 64  signature, if flagged
//	 …  n  the entry
//	 …  4  checksum of the batch's number (8 bytes) and the record so far
//
// A void mark, 16 bytes, takes back a record of an earlier batch whose
// signature, verified beside its own write, turned out wrong:
//
//	 0  8  number of that batch
//	 8  4  which of its records, from 0
//	12  4  checksum of the batch's number (8 bytes) and bytes 0…11
//
// # Opening
//
// A bad place is a torn tail if it lies in the last segment and no valid batch
// header stands behind it: a write that never ended. The whole unfinished batch
// is cut, file and folder are synced. Everything else is damage: reading goes
// on at the next valid batch header, the bytes are copied into aside/ and
// otherwise left as they are. A copy in aside/ is also the memory: damage that
// lies there already is named again but is no news. Where a header is bad, the
// next one is looked for byte by byte, and its number may be ahead by no more
// batches than fit into what was skipped, so that an entry which imitates a
// batch cannot hide what follows.
//
// The last batch has no later one that vouches for its sync: a sync may have
// failed, after which the system shows bytes that the disk does not hold and
// calls them clean, a new length too. Unless the log was closed cleanly, opening
// changes the length to and fro, writes that batch once more, in place, with the
// same bytes, and syncs.
//
// # Mark
//
// The mark is text, a line each: machine (a hash of the machine's id), folder
// and file (device:inode:birth of the group's folder and of the mark itself), end
// (batch, segment, offset that the log had reached), state (open or closed), at
// (when, for people), owed (the reason for a new incarnation that has not begun
// yet), recheck (batches up to this number are not vouched for by their own
// checked number, only by later ones), sum (checksum of the lines before).
//
// A copied folder has another inode or birth; an older copy put over the folder
// brings a mark whose file line is not its own; older segments under a newer
// mark end before its end. Where the system tells no birth (Android, Windows)
// an older copy put over the folder may stay unnoticed, as inodes are used again.
// What also stays unnoticed: a whole disk or virtual machine set
// back to an earlier picture. Other devices notice that.
//
// # Limits and history
//
// Nothing here is secret or authenticated: checksums find accidents, signatures
// inside the entries find intent. Two processes are kept apart by an advisory
// lock; a file system without locks is treated as one that cannot be written.
// Format 1 is the first. A later format gets a new number in the segment
// header; this package refuses numbers it does not know and changes nothing.
package disk
