package disk

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"

	"lintel/mesh"
)

// Limits of the log.
const (
	SegmentLenMax = 8 << 20                          // bytes of one segment
	BatchLenMax   = SegmentLenMax - segmentHeaderLen // bytes of one batch with its header
	SegmentsMax   = 99_999_999                       // what eight digits can number
)

// Format is the log format that this package writes.
const Format = 1

const (
	segmentMagic     = "LintelSg"
	segmentHeaderLen = 60
	batchMagic       = "\xc1Bat" // 0xC1 begins no msgpack value
	batchHeaderLen   = 36
	recordLenMin     = 17 // a record around an entry of no bytes
	voidLen          = 16
	flagSigned       = 1
	signatureLen     = len(mesh.Signature{})
)

// Errors of Append that come from its argument. They poison the store too:
// whoever asks for such a write has lost count.
var (
	ErrBatchTooLong = errors.New("the batch is longer than a segment can hold")
	ErrOutOfTurn    = errors.New("the batch number is not the next one")
)

// segmentHeader begins a file.
type segmentHeader struct {
	format uint32
	group  mesh.GroupID
	number uint64
	before uint32 // checksum of the whole segment before
}

// batchHeader begins a batch.
type batchHeader struct {
	number, checked uint64
	records, voids  uint32
	bodyLen         int
}

var errHeader = errors.New("the header is damaged")

// table is CRC-32C. MakeTable gives the same table, ready made, each time.
func table() *crc32.Table { return crc32.MakeTable(crc32.Castagnoli) }

func checksum(before uint32, b []byte) uint32 { return crc32.Update(before, table(), b) }

// numberSum begins the checksum of whatever belongs to a batch, so that bytes
// of another batch never fit.
func numberSum(batch uint64) uint32 {
	var b [8]byte
	binary.BigEndian.PutUint64(b[:], batch)
	return checksum(0, b[:])
}

func (h segmentHeader) append(b []byte) []byte {
	from := len(b)
	b = append(b, segmentMagic...)
	b = binary.BigEndian.AppendUint32(b, h.format)
	b = append(b, h.group[:]...)
	b = binary.BigEndian.AppendUint64(b, h.number)
	b = binary.BigEndian.AppendUint32(b, h.before)
	return binary.BigEndian.AppendUint32(b, checksum(0, b[from:]))
}

// parseSegmentHeader reads the start of a segment: errHeader if it is not one,
// ErrFormat if a newer program wrote it.
func parseSegmentHeader(b []byte) (h segmentHeader, err error) {
	if len(b) < segmentHeaderLen || string(b[:8]) != segmentMagic {
		return h, errHeader
	}
	if binary.BigEndian.Uint32(b[56:]) != checksum(0, b[:56]) {
		return h, errHeader
	}
	h.format = binary.BigEndian.Uint32(b[8:])
	copy(h.group[:], b[12:])
	h.number = binary.BigEndian.Uint64(b[44:])
	h.before = binary.BigEndian.Uint32(b[52:])
	if h.format != Format {
		return h, fmt.Errorf("%w (it is %d, this program reads %d)", ErrFormat, h.format, Format)
	}
	return h, nil
}

func (h batchHeader) put(b []byte, group mesh.GroupID) {
	copy(b, batchMagic)
	binary.BigEndian.PutUint64(b[4:], h.number)
	binary.BigEndian.PutUint64(b[12:], h.checked)
	binary.BigEndian.PutUint32(b[20:], h.records)
	binary.BigEndian.PutUint32(b[24:], h.voids)
	binary.BigEndian.PutUint32(b[28:], uint32(h.bodyLen))
	binary.BigEndian.PutUint32(b[32:], checksum(checksum(0, group[:]), b[:32]))
}

// parseBatchHeader reads a header at the start of b; ok is false if there is none.
func parseBatchHeader(b []byte, group mesh.GroupID) (h batchHeader, ok bool) {
	if len(b) < batchHeaderLen || string(b[:4]) != batchMagic {
		return h, false
	}
	if binary.BigEndian.Uint32(b[32:]) != checksum(checksum(0, group[:]), b[:32]) {
		return h, false
	}
	h.number = binary.BigEndian.Uint64(b[4:])
	h.checked = binary.BigEndian.Uint64(b[12:])
	h.records = binary.BigEndian.Uint32(b[20:])
	h.voids = binary.BigEndian.Uint32(b[24:])
	bodyLen := binary.BigEndian.Uint32(b[28:])
	h.bodyLen = int(bodyLen)
	return h, h.checked < h.number && bodyLen <= BatchLenMax-batchHeaderLen
}

// appendBatch writes a as one batch behind b.
func appendBatch(b []byte, group mesh.GroupID, a mesh.Append) ([]byte, error) {
	from := len(b)
	b = append(b, make([]byte, batchHeaderLen)...)
	seed := numberSum(a.Batch)
	for i, r := range a.Records {
		if err := r.Item.Valid(); err != nil {
			return nil, fmt.Errorf("record %d: %w", i, err)
		}
		b = appendRecord(b, seed, r)
	}
	for _, v := range a.Void {
		if v.Batch >= a.Batch {
			return nil, fmt.Errorf("%w: it takes back a record of batch %d", ErrOutOfTurn, v.Batch)
		}
		b = appendVoid(b, seed, v)
	}
	if len(b)-from > BatchLenMax {
		return nil, fmt.Errorf("%w: %d bytes, at most %d", ErrBatchTooLong, len(b)-from, BatchLenMax)
	}
	h := batchHeader{
		number: a.Batch, checked: a.Batch - 1, bodyLen: len(b) - from - batchHeaderLen,
		records: uint32(len(a.Records)), voids: uint32(len(a.Void)),
	}
	h.put(b[from:], group)
	return b, nil
}

func appendRecord(b []byte, seed uint32, r mesh.Record) []byte {
	from := len(b)
	b = binary.BigEndian.AppendUint32(b, uint32(len(r.Item.Bytes)))
	b = binary.BigEndian.AppendUint64(b, uint64(r.Received))
	if len(r.Item.Signature) > 0 {
		b = append(b, flagSigned)
		b = append(b, r.Item.Signature...)
	} else {
		b = append(b, 0)
	}
	b = append(b, r.Item.Bytes...)
	return binary.BigEndian.AppendUint32(b, checksum(seed, b[from:]))
}

func appendVoid(b []byte, seed uint32, v mesh.VoidMark) []byte {
	from := len(b)
	b = binary.BigEndian.AppendUint64(b, v.Batch)
	b = binary.BigEndian.AppendUint32(b, v.Index)
	return binary.BigEndian.AppendUint32(b, checksum(seed, b[from:]))
}

// parseBody reads the body of a batch. bad is -1 if all of it is well, else
// where the first bad record or void mark begins; what stands before it holds.
func parseBody(h batchHeader, body []byte) (records []mesh.Record, voids []mesh.VoidMark, bad int) {
	seed, at := numberSum(h.number), 0
	for range h.records {
		r, n := parseRecord(body[at:], seed)
		if n == 0 {
			return records, nil, at
		}
		records = append(records, r)
		at += n
	}
	for range h.voids {
		v, ok := parseVoid(body[at:], seed)
		if !ok {
			return records, voids, at
		}
		voids = append(voids, v)
		at += voidLen
	}
	if at != len(body) {
		return records, voids, at
	}
	return records, voids, -1
}

// parseRecord reads one record and tells its length; 0 means that it is bad.
// The record's slices are parts of b.
func parseRecord(b []byte, seed uint32) (r mesh.Record, n int) {
	if len(b) < recordLenMin {
		return r, 0
	}
	entryLen, flags := binary.BigEndian.Uint32(b), b[12]
	if entryLen > mesh.EntryLenMax || flags&^flagSigned != 0 {
		return r, 0
	}
	from := 13
	if flags == flagSigned {
		from += signatureLen
	}
	to := from + int(entryLen)
	if len(b) < to+4 || binary.BigEndian.Uint32(b[to:]) != checksum(seed, b[:to]) {
		return r, 0
	}
	r.Received = mesh.Wall(binary.BigEndian.Uint64(b[4:]))
	r.Item.Bytes = b[from:to:to]
	if flags == flagSigned {
		r.Item.Signature = b[13:from:from]
	}
	return r, to + 4
}

func parseVoid(b []byte, seed uint32) (v mesh.VoidMark, ok bool) {
	if len(b) < voidLen || binary.BigEndian.Uint32(b[12:]) != checksum(seed, b[:12]) {
		return v, false
	}
	return mesh.VoidMark{Batch: binary.BigEndian.Uint64(b), Index: binary.BigEndian.Uint32(b[8:])}, true
}
