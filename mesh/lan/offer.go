package lan

import (
	"context"
	"fmt"
	"net"
	"strconv"
	"time"

	"lintel/mesh"
)

// PairRole says what a device is when pairing, whichever side shows the code.
type PairRole uint8

// Roles of pairing.
const (
	RoleMember PairRole = 1 // belongs to the group and lets the other in
	RoleJoiner PairRole = 2 // wants to belong to it
)

// String is the role's name in the proof.
func (r PairRole) String() string {
	if r == RoleMember {
		return "member"
	}
	return "joiner"
}

// other is the role that the other side must have.
func (r PairRole) other() PairRole { return RoleMember + RoleJoiner - r }

// Joiner is a device that has proved the code and wants to be admitted.
type Joiner struct {
	Key     mesh.Key
	Name    mesh.Label
	Address string // where it listens, "host:port"
}

// Welcome is what a member gives a joiner that has proved the code. The joiner
// gets it with Founding already compared with Group; whether Admission admits
// it is for its caller to read.
type Welcome struct {
	Group     mesh.GroupID
	Founding  mesh.Item // the group's first entry; its hash is Group
	Inviter   mesh.Label
	Admission mesh.Item
	Address   string // where the member listens, "host:port"; filled in for the joiner
}

// PairOffer is one side's part in pairing.
type PairOffer struct {
	Role PairRole
	Name mesh.Label // what stands on this device; the joiner's is sent
	// Admit, of a member, is called once the code was proved and returns when
	// the admission is durable. An error declines.
	Admit func(context.Context, Joiner) (Welcome, error)
	// Done, of a shown code, is called exactly once: with the other side's key
	// when pairing is done, or with the error that ended the code. ErrUnconfirmed
	// comes with both: the admission stands.
	Done func(Welcome, mesh.Key, error)
}

// checkOffer names what is missing in an offer.
func (n *Net) checkOffer(o PairOffer) error {
	if err := o.Role.Valid(); err != nil {
		return fmt.Errorf("%w: %v", ErrOptions, err)
	}
	if o.Role == RoleJoiner {
		return nil
	}
	if o.Admit == nil {
		return fmt.Errorf("%w: a member needs Admit", ErrOptions)
	}
	if _, ok := n.opt.Group(); !ok {
		return ErrNoGroup
	}
	return nil
}

// pair carries out what follows the proof.
func (n *Net) pair(ctx context.Context, t *talk, o PairOffer) (Welcome, mesh.Key, error) {
	t.lenMax = mesh.FrameLenMax
	t.c.deadline(time.Now().Add(n.opt.Limits.AdmitWithin + n.opt.Limits.OpenWithin))
	if o.Role == RoleJoiner {
		w, err := n.join(t, o)
		return w, t.c.peer, err
	}
	w, err := n.admit(ctx, t, o)
	return w, t.c.peer, err
}

// join tells the member who we are, and reads and checks the welcome.
func (n *Net) join(t *talk, o PairOffer) (Welcome, error) {
	if err := t.say(msgAbout, &About{Name: o.Name, Port: uint16(n.Port())}); err != nil {
		return Welcome{}, err
	}
	var g Greeting
	if err := t.hear(msgWelcome, &g); err != nil {
		return Welcome{}, err
	}
	if mesh.GroupID(mesh.HashEntry(g.Founding.Bytes)) != g.Group {
		t.refuse(Refusal{Why: refusedWelcome})
		return Welcome{}, ErrWelcome
	}
	if err := t.say(msgDone, &Done{}); err != nil {
		return Welcome{}, err
	}
	t.linger()
	return Welcome{Group: g.Group, Founding: g.Founding, Inviter: g.Inviter, Admission: g.Admission,
		Address: hostPort(t.c.remote, g.Port)}, nil
}

// admit reads who wants in, has the admission written, and sends the welcome.
func (n *Net) admit(ctx context.Context, t *talk, o PairOffer) (Welcome, error) {
	var a About
	if err := t.hear(msgAbout, &a); err != nil {
		return Welcome{}, err
	}
	within, cancel := context.WithTimeout(ctx, n.opt.Limits.AdmitWithin)
	defer cancel()
	w, err := o.Admit(within, Joiner{Key: t.c.peer, Name: a.Name, Address: hostPort(t.c.remote, a.Port)})
	if err != nil {
		t.refuse(Refusal{Why: refusedDeclined})
		return Welcome{}, fmt.Errorf("%w: %w", ErrDeclined, err)
	}
	t.c.deadline(time.Now().Add(n.opt.Limits.OpenWithin))
	g := Greeting{Group: w.Group, Founding: w.Founding, Inviter: w.Inviter, Admission: w.Admission, Port: uint16(n.Port())}
	if err := t.say(msgWelcome, &g); err != nil {
		return w, fmt.Errorf("%w: %v", ErrUnconfirmed, err)
	}
	if err := t.hear(msgDone, &Done{}); err != nil {
		return w, fmt.Errorf("%w: %v", ErrUnconfirmed, err)
	}
	return w, nil
}

// hostPort puts the port on which a device listens to the address it came from.
func hostPort(remote string, port uint16) string {
	host, _, err := net.SplitHostPort(remote)
	if err != nil {
		return ""
	}
	return net.JoinHostPort(host, strconv.Itoa(int(port)))
}
