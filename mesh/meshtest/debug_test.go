package meshtest

import (
	"fmt"
	"os"
	"strconv"
	"testing"
)

func TestDebug(t *testing.T) {
	seed, err := strconv.ParseUint(os.Getenv("DBG"), 10, 64)
	if err != nil {
		return
	}
	s := play(seed, NoBug, false)
	os.WriteFile("/tmp/trace.txt", []byte(s.Trace()), 0o644)
	for _, b := range s.Broken() {
		fmt.Println(b)
	}
	for _, n := range s.nodes {
		fmt.Println(n.id, n.key, "up", n.up, "gone", n.gone, "full", n.disk.full, "twin", n.twin, "mem", n.peer.InMemory(), len(n.peer.Facts()))
		for _, h := range n.peer.Heads() {
			fmt.Printf("   %s/%d:%x", h.Feed, h.Seq, h.Hash[:3])
		}
		fmt.Println()
		for _, d := range n.peer.Devices() {
			fmt.Print("   ", d.Key, ":", d.Status, d.Cuts)
		}
		fmt.Println()
	}
}

func TestDebugFold(t *testing.T) {
	seed, err := strconv.ParseUint(os.Getenv("DBG"), 10, 64)
	if err != nil {
		return
	}
	s := play(seed, NoBug, false)
	for _, n := range s.nodes {
		f := n.fold.(*SetFold)
		have := map[string]bool{}
		for _, x := range n.peer.Facts() {
			have[x.Ref.Hex()] = true
			if _, ok := f.facts[x.Ref]; !ok {
				fmt.Println(n.id, "lacks", x.Ref, x.At.Feed, x.At.Seq, x.Kind)
			}
		}
		for r := range f.facts {
			if !have[r.Hex()] {
				fmt.Println(n.id, "extra", r)
			}
		}
	}
}
