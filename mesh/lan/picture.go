package lan

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"time"

	"lintel/mesh"
)

// PictureLenMax bounds one picture, in bytes.
const PictureLenMax = 256 << 10

// The form of an ask for a picture.
const (
	pictureVersion = 1
	pictureAskLen  = 1 + len(mesh.GroupID{}) + len(mesh.Hash{})
	pictureHeadLen = 1 + 4 // of an answer: code and length
)

// pictureCode begins an answer. The codes are numbered once.
type pictureCode uint8

const (
	pictureNotHeld pictureCode = 0
	pictureHeld    pictureCode = 1
	pictureLater   pictureCode = 2 // too many ask at once
)

// Errors of FetchPicture, beside those of dialling.
var (
	ErrNotLinked    = errors.New("there is no link with the device")
	ErrNoPicture    = errors.New("the device does not have the picture")
	ErrPictureLater = errors.New("the device is asked for too many pictures at once")
	ErrPictureWrong = errors.New("the device answered with something that is not the picture")
)

// FetchPicture asks a device with a link for one picture, over a connection of
// its own, and returns bytes whose hash is the one asked for. It takes
// Limits.PictureWithin at most.
func (n *Net) FetchPicture(ctx context.Context, from mesh.Key, hash mesh.Hash) ([]byte, error) {
	l, _ := n.links.with(from)
	group, ok := n.opt.Group()
	if l == nil || !ok {
		return nil, ErrNotLinked
	}
	ctx, cancel := context.WithTimeout(ctx, n.opt.Limits.PictureWithin)
	defer cancel()
	dialling, dialled := context.WithTimeout(ctx, n.opt.Limits.OpenWithin)
	defer dialled()
	o, err := n.race(dialling, plainAddress(l.address), forPicture, n.ways())
	if err != nil {
		return nil, err
	}
	defer o.c.end(closedDone, "")
	if o.c.peer != from {
		return nil, fmt.Errorf("%w: another device has its address", ErrNoAnswer)
	}
	until, _ := ctx.Deadline() // set above
	o.c.deadline(until)
	stop := context.AfterFunc(ctx, func() { o.c.end(closedLeaving, "given up") })
	defer stop()
	if _, err := o.c.lanes[0].w.Write(appendAsk(nil, group, hash)); err != nil {
		return nil, fmt.Errorf("%w: asking: %v", ErrNoAnswer, err)
	}
	b, err := readPicture(o.c.lanes[0].r)
	if err == nil && sha256.Sum256(b) != hash {
		err = ErrPictureWrong
	}
	if err != nil {
		return nil, err
	}
	return b, nil
}

// answerPicture is the accepting side of one ask. The key was compared with the
// members' when the connection began.
func (n *Net) answerPicture(ctx context.Context, c *carrier, s *slot) {
	stop := context.AfterFunc(ctx, func() { c.end(closedLeaving, "the program ends") })
	defer stop()
	defer c.end(closedDone, "")
	var ask [pictureAskLen]byte
	if _, err := io.ReadFull(c.lanes[0].r, ask[:]); err != nil {
		return
	}
	hash, err := n.readAsk(ask)
	if err != nil {
		return
	}
	s.leave() // it has said what it wants: no longer half-open
	c.deadline(time.Now().Add(n.opt.Limits.PictureWithin))
	code, b := n.pictureFor(hash)
	if code == pictureHeld {
		defer func() { <-n.picturing }()
	}
	if _, err := c.lanes[0].w.Write(appendPicture(nil, code, b)); err != nil {
		return
	}
	// The other side closes when it has everything: closing first could cut it off.
	c.deadline(time.Now().Add(min(n.opt.Limits.PictureWithin, lingerMax)))
	_, _ = c.lanes[0].r.ReadByte()
}

// pictureFor decides what is answered; with pictureHeld a place of picturing is
// taken.
func (n *Net) pictureFor(hash mesh.Hash) (pictureCode, []byte) {
	select {
	case n.picturing <- struct{}{}:
	default:
		return pictureLater, nil
	}
	b, held := n.opt.Picture(hash)
	if !held || len(b) == 0 || len(b) > PictureLenMax {
		<-n.picturing
		return pictureNotHeld, nil
	}
	return pictureHeld, b
}

// appendAsk writes what readAsk reads.
func appendAsk(b []byte, group mesh.GroupID, hash mesh.Hash) []byte {
	b = append(b, pictureVersion)
	b = append(b, group[:]...)
	return append(b, hash[:]...)
}

// readAsk reads which picture is wanted by a device of this group.
func (n *Net) readAsk(ask [pictureAskLen]byte) (hash mesh.Hash, err error) {
	group, ok := n.opt.Group()
	switch {
	case ask[0] != pictureVersion:
		return hash, ErrOtherVersion
	case !ok || mesh.GroupID(ask[1:1+len(group)]) != group:
		return hash, ErrOtherGroup
	}
	copy(hash[:], ask[1+len(group):])
	return hash, nil
}

// appendPicture writes what readPicture reads.
func appendPicture(b []byte, code pictureCode, picture []byte) []byte {
	b = append(b, byte(code))
	b = binary.BigEndian.AppendUint32(b, uint32(len(picture)))
	return append(b, picture...)
}

// readPicture reads an answer. Nothing is allocated for a length over
// PictureLenMax, and nothing is read behind it.
func readPicture(r io.Reader) ([]byte, error) {
	var head [pictureHeadLen]byte
	if _, err := io.ReadFull(r, head[:]); err != nil {
		return nil, fmt.Errorf("%w: %v", ErrNoAnswer, err)
	}
	length := binary.BigEndian.Uint32(head[1:])
	switch code := pictureCode(head[0]); {
	case code == pictureNotHeld && length == 0:
		return nil, ErrNoPicture
	case code == pictureLater && length == 0:
		return nil, ErrPictureLater
	case code != pictureHeld || length == 0 || length > PictureLenMax:
		return nil, fmt.Errorf("%w: code %d, %d bytes", ErrPictureWrong, code, length)
	}
	b := make([]byte, length)
	if _, err := io.ReadFull(r, b); err != nil {
		return nil, fmt.Errorf("%w: %v", ErrNoAnswer, err)
	}
	return b, nil
}
