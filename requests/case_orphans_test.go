package requests

import (
	"testing"

	"github.com/stretchr/testify/require"

	"lintel/mesh"
)

// Goal: taking back a case leaves nothing unseen that was recorded for it. Method: a
// request, a tick and a tick that was taken back itself, in one of two cases.
func TestWhatATakenBackCaseLeavesIsListed(t *testing.T) {
	s := newScene(t)
	first := s.put(lead, KindCaseOpen, &CaseOpen{Room: "A1"})
	other := s.put(lead, KindCaseOpen, &CaseOpen{Room: "A2"})
	asked := s.put(lead, KindAsked, &Asked{Case: first, Room: "A1", Thing: tube(), Urgency: RightNow})
	ticked := s.put(lead, KindLineDone, &LineDone{Case: first, List: "brief", Line: "roles-said", Done: true})
	slip := s.put(lead, KindLineDone, &LineDone{Case: first, List: "brief", Line: "speaker", Done: true})
	s.put(lead, KindLineDone, &LineDone{Case: other, List: "brief", Line: "speaker", Done: true})
	s.put(lead, KindUndone, &Undone{Names: slip})
	require.Empty(t, s.board().Orphans())
	s.put(lead, KindUndone, &Undone{Names: first})
	var refs []mesh.Ref
	for _, m := range s.board().Orphans() {
		refs = append(refs, m.Ref)
	}
	require.Equal(t, []mesh.Ref{asked, ticked}, refs)
}
