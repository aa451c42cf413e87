package disk

import (
	"bytes"
	"fmt"

	"lintel/mesh"
)

// segmentText is one segment as it lies on the disk.
type segmentText struct {
	number uint64
	bytes  []byte // at most SegmentLenMax
	size   int64  // of the file
	last   bool   // of the log
}

// batch is what one batch holds and where it lies.
type batch struct {
	number, checked uint64
	segment         uint64
	from, to        int64
	records         []mesh.Record
	voids           []mesh.VoidMark
}

// badSpot is a Spot and what lies there.
type badSpot struct {
	Spot
	bytes []byte
}

// reading goes through a log from its first segment to its last. It is pure;
// the goroutine that opens the store owns it.
type reading struct {
	group   mesh.GroupID
	batches []batch
	spots   []badSpot
	torn    *Spot
	newest  uint64 // number of the newest batch read
	skipped int64  // bytes that may have held batches since the newest one
	lost    bool   // something was named since the newest one: a jump in numbers is no news

	segment     uint64 // number of the segment read last
	end         int64  // where the next batch goes in it
	before, sum uint32 // checksums of the segment before it, and of it up to end
	foreign     bool   // it is of another log: the next batch begins a new one
	lastBytes   []byte
}

// read goes through the next segment. It fails only if a newer program wrote it.
func (r *reading) read(s segmentText) error {
	spotsBefore := len(r.spots)
	if s.number > r.segment+1 {
		r.note(r.segment+1, 0, nil, fmt.Sprintf("%d segments are missing", s.number-r.segment-1))
		r.skipped += int64(s.number-r.segment-1) * SegmentLenMax
	}
	at, err := r.readHead(s, spotsBefore)
	if err != nil {
		return err
	}
	for at < len(s.bytes) && r.torn == nil {
		at = r.readBatch(s, at)
	}
	if s.size > int64(len(s.bytes)) && r.torn == nil {
		r.skip(s, len(s.bytes), len(s.bytes), "the segment is longer than a segment can be")
	}
	r.close(s)
	return nil
}

// close notes where writing would go on behind s.
func (r *reading) close(s segmentText) {
	r.segment, r.end, r.before, r.lastBytes = s.number, s.size, r.sum, s.bytes
	if r.torn != nil {
		r.end = r.torn.Offset
	}
	r.sum = checksum(0, s.bytes[:min(int64(len(s.bytes)), r.end)])
	r.skipped += max(0, SegmentLenMax-s.size)
}

// readHead reads the segment's header and tells where the first batch stands.
func (r *reading) readHead(s segmentText, spotsBefore int) (at int, err error) {
	h, err := parseSegmentHeader(s.bytes)
	r.foreign = false
	switch {
	case err == errHeader:
		at = r.find(s.bytes, 0, r.newest, r.skipped)
		r.skip(s, 0, at, "the segment's header cannot be read")
		return at, nil
	case err != nil:
		return 0, fmt.Errorf("segment %d: %w", s.number, err)
	case h.group != r.group || h.number != s.number:
		r.foreign = true
		r.note(s.number, 0, s.bytes, "the segment belongs to another place or log")
		return len(s.bytes), nil
	case s.number > 1 && h.before != r.sum && len(r.spots) == spotsBefore && !r.lost:
		r.note(r.segment, 0, nil, "the segment is not as it was when the next one began")
	}
	return segmentHeaderLen, nil
}

// readBatch reads what stands at one place and tells where to go on.
func (r *reading) readBatch(s segmentText, at int) (next int) {
	h, ok := parseBatchHeader(s.bytes[at:], r.group)
	if !ok {
		next = r.find(s.bytes, at+1, r.newest, r.skipped)
		r.skip(s, at, next, "no batch begins here")
		return next
	}
	from := at + batchHeaderLen
	to := from + h.bodyLen
	switch {
	case to > len(s.bytes):
		r.skip(s, at, len(s.bytes), fmt.Sprintf("batch %d ends too early", h.number))
		return len(s.bytes)
	case h.number <= r.newest:
		r.skip(s, at, to, fmt.Sprintf("batch %d stands behind batch %d", h.number, r.newest))
		return to
	}
	b := batch{number: h.number, checked: h.checked, segment: s.number, from: int64(at), to: int64(to)}
	var bad int
	b.records, b.voids, bad = parseBody(h, s.bytes[from:to:to])
	if bad >= 0 && s.last && r.find(s.bytes, to, h.number, 0) == len(s.bytes) {
		r.skip(s, at, len(s.bytes), fmt.Sprintf("batch %d is not whole", h.number))
		return len(s.bytes)
	}
	r.take(b)
	if bad >= 0 {
		r.note(s.number, int64(from+bad), s.bytes[from+bad:to], fmt.Sprintf("batch %d is damaged from here", h.number))
		r.lost, r.batches[len(r.batches)-1].checked = false, 0
	}
	return to
}

// take keeps a batch, and names those that should stand before it and do not.
func (r *reading) take(b batch) {
	if b.number > r.newest+1 && !r.lost {
		r.note(b.segment, b.from, nil, fmt.Sprintf("batches %d to %d are missing", r.newest+1, b.number-1))
	}
	r.batches = append(r.batches, b)
	r.newest, r.skipped, r.lost = b.number, 0, false
}

// skip judges bytes that hold no batch: a torn tail if they end the log, else damage.
func (r *reading) skip(s segmentText, from, to int, what string) {
	r.skipped += int64(to - from)
	if s.last && to == len(s.bytes) {
		r.torn = &Spot{Segment: s.number, Offset: int64(from), Length: s.size - int64(from), What: what, New: true}
		return
	}
	r.note(s.number, int64(from), s.bytes[from:to], what)
}

func (r *reading) note(segment uint64, offset int64, b []byte, what string) {
	spot := Spot{Segment: segment, Offset: offset, Length: int64(len(b)), What: what, New: true}
	r.spots = append(r.spots, badSpot{Spot: spot, bytes: b})
	r.lost = true
}

// find gives the place of the next batch header behind from that is believable
// when batch newest was the one before and skipped bytes may hold others, or len(b).
func (r *reading) find(b []byte, from int, newest uint64, skipped int64) int {
	for at := from; ; at++ {
		i := bytes.Index(b[min(at, len(b)):], []byte(batchMagic))
		if i < 0 {
			return len(b)
		}
		at += i
		h, ok := parseBatchHeader(b[at:], r.group)
		room := 1 + uint64(skipped+int64(at-from)+1)/batchHeaderLen
		if ok && h.number > newest && h.number-newest <= room {
			return at
		}
	}
}

// recordsFound gives the records that no void mark takes back, and their places.
func (r *reading) recordsFound() (records []mesh.Record, places []mesh.VoidMark) {
	void := map[mesh.VoidMark]bool{}
	for _, b := range r.batches {
		for _, v := range b.voids {
			if v.Batch < b.number {
				void[v] = true
			}
		}
	}
	for _, b := range r.batches {
		for i, rec := range b.records {
			if p := (mesh.VoidMark{Batch: b.number, Index: uint32(i)}); !void[p] {
				records, places = append(records, rec), append(places, p)
			}
		}
	}
	return records, places
}

// checked gives the newest batch number that a batch behind recheck vouches for.
func (r *reading) checked(recheck uint64) (newest uint64) {
	for _, b := range r.batches {
		if b.number > recheck {
			newest = max(newest, b.checked)
		}
	}
	return newest
}
