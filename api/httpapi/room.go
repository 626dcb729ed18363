package httpapi

import (
	"errors"
	"io"
	"sync/atomic"
)

// room limits the total bytes of request bodies in memory, both those being read and those
// waiting for a slot. Without it, slow senders on many connections could fill the memory.
// The first roomFree bytes of each body are not counted, so that large bodies do not block
// small ones.
type room struct {
	taken atomic.Int64
	most  int64
}

// roomFree is the number of bytes of each body that are not counted. Most requests are
// smaller.
const roomFree = 16 << 10

var errNoRoom = errors.New("no room for the body")

// roomed is a body whose bytes count against the room from reading until leave.
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
