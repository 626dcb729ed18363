package httpapi

import (
	"errors"
	"io"
	"sync/atomic"
)

// room is how many bytes of large bodies there may be at the same time, of those
// that are being read and those that wait for their turn. Without it a client who
// sends slowly on every connection that there may be fills the memory. The
// beginning of each body is free, so that no large one keeps small ones out.
type room struct {
	taken atomic.Int64
	most  int64
}

// roomFree are the bytes of every body that take no room: most requests are smaller.
const roomFree = 16 << 10

var errNoRoom = errors.New("no room for the body")

// roomed reads a body, and takes room for what it reads until it leaves.
type roomed struct {
	io.Reader
	room *room
	read int64
	held int64
}

func (r *roomed) Read(b []byte) (int, error) {
	n, err := r.Reader.Read(b)
	r.read += int64(n)
	more := max(0, r.read-roomFree) - r.held
	r.held += more
	if more > 0 && r.room.taken.Add(more) > r.room.most {
		return n, errNoRoom
	}
	return n, err
}

// leave gives the room back. It may be called more than once.
func (r *roomed) leave() {
	r.room.taken.Add(-r.held)
	r.held = 0
}
