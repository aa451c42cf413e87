package main

import (
	"context"
	"fmt"
	"slices"

	"lintel/app/words"
)

// command is one command on a device's standard input.
type command struct {
	name  string
	usage string
	about words.ID
	run   func(*session, context.Context, *arguments) (event, error)
}

// commands lists them in the order of help.
func commands() []command {
	return slices.Concat(requestCommands(), caseCommands(), kitCommands(), caseLists(), tableCommands(), pictureCommands(), deviceCommands())
}

// requestCommands are about requests.
func requestCommands() []command {
	return []command{
		{"ask", "ask ITEM [xN] [now|next|before] [room A1] [out]", "help.ask", (*session).ask},
		{"change", "change REQ [ITEM] [xN] [now|next|before]", "help.change", (*session).change},
		{"going", "going REQ", "help.going", (*session).going},
		{"readback", "readback REQ ITEM xN [scanned|spoken] [lot L]", "help.readback", (*session).readback},
		{"door", "door REQ [room A1] [anyway]", "help.door", (*session).door},
		{"take", "take REQ [xN] [glass]", "help.take", (*session).take},
		{"back", "back REQ [WHY]", "help.back", (*session).back},
		{"withdraw", "withdraw REQ [WHY]", "help.withdraw", (*session).withdraw},
		{"offer", "offer REQ ITEM xN [/ ITEM xN [/ ITEM xN]]", "help.offer", (*session).offer},
		{"agree", "agree REQ|MARK [N]", "help.agree", (*session).agree},
		{"refuse", "refuse REQ|MARK [N] [WHY]", "help.refuse", (*session).refuse},
		{"cannot", "cannot REQ [WHY]", "help.cannot", (*session).cannot},
		{"pass-on", "pass-on REQ TAG", "help.pass-on", (*session).passOn},
		{"voice", "voice ITEM [xN] [now|next|before] [room A1] [tag L1] [code C]", "help.voice", (*session).voice},
		{"passed", "passed ITEM [xN] [room A1]", "help.passed", (*session).passed},
		{"join-requests", "join-requests REQ REQ", "help.join-requests", (*session).joinRequests},
		{"remind", "remind REQ", "help.remind", (*session).remind},
		{"pass-all", "pass-all TAG", "help.pass-all", (*session).passAll},
		{"undo", "undo REQ|FACT|MARK", "help.undo", (*session).undo},
	}
}

// deviceCommands are about this device and its unit.
func deviceCommands() []command {
	return []command{
		{"hold", "hold [role R] [tag T] [room A1]… [every-room]", "help.hold", (*session).holdCommand},
		{"found", "found NAME", "help.found", (*session).found},
		{"invite", "invite", "help.invite", (*session).invite},
		{"join", "join CODE [ADDRESS]", "help.join", (*session).join},
		{"dial", "dial ADDRESS", "help.dial", (*session).dial},
		{"remove", "remove DEVICE [WHY]", "help.remove", (*session).remove},
		{"peers", "peers", "help.peers", (*session).listPeers},
		{"board", "board [all]", "help.board", (*session).board},
		{"ledger", "ledger [PLACE]", "help.ledger", (*session).ledger},
		{"restock", "restock [PLACE]", "help.restock", (*session).restock},
		{"audit", "audit", "help.ledger-audit", (*session).audit},
		{"hash", "hash", "help.hash", (*session).hash},
		{"stock-demo", "stock-demo", "help.stock-demo", (*session).stockDemo},
		{"help", "help", "help.help", (*session).help},
		{"quit", "quit", "help.quit", (*session).quit},
	}
}

func commandNamed(name string) (command, bool) {
	for _, c := range commands() {
		if c.name == name {
			return c, true
		}
	}
	return command{}, false
}

// helpEvent is one line of help.
type helpEvent struct {
	Event string `json:"event"` // help
	Usage string `json:"usage,omitempty"`
	Text  string `json:"text"`
}

func (e helpEvent) say(words.Words) string {
	if e.Usage == "" {
		return e.Text
	}
	return fmt.Sprintf("  %-56s %s", e.Usage, e.Text)
}

func (s *session) help(_ context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	s.out.print(helpEvent{Event: "help", Text: s.w.Say("help.intro")})
	all := commands()
	for _, c := range all {
		s.out.print(helpEvent{Event: "help", Usage: c.usage, Text: s.w.Say(c.about)})
	}
	return s.said("help"), nil
}

func (s *session) quit(_ context.Context, a *arguments) (event, error) {
	if err := a.done(); err != nil {
		return nil, err
	}
	s.over = true
	return s.said("quit"), nil
}

// said is the answer to a command that records nothing.
func (s *session) said(command string) doneEvent {
	return doneEvent{Event: "done", Command: command, text: s.w.Say("done", command)}
}

// listed is the answer to a command that printed n lines.
func (s *session) listed(command string, n int) doneEvent {
	e := s.said(command)
	e.Count, e.text = &n, s.w.Count("done."+words.ID(command), n)
	return e
}
