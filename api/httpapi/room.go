package httpapi

import (
	"errors"
	"io"
	"sync/atomic"
)

// bodyRoom is the room for bodies that come in or wait for their turn. Whoever sends
// holds no place in a lane, and so many could send at once that their bodies fill
// the memory.
type bodyRoom struct {
	most  int64 // bytes
	taken atomic.Int64
	full  func() // told of each body that found no room
}

// freeBytes of each body need no room: that many times the connections is little,
// and so those who fill the room keep nobody from asking what people ask.
const freeBytes = 16 << 10

// errNoRoom is why a body is read no further.
var errNoRoom = errors.New("there is no room for the body")

// bodyShare is a body that takes room as it comes.
type bodyShare struct {
	room  *bodyRoom
	from  io.Reader
	read  int64
	taken int64
}

// Read reads on while there is room.
func (b *bodyShare) Read(p []byte) (int, error) {
	n, err := b.from.Read(p)
	b.read += int64(n)
	if more := b.read - freeBytes - b.taken; more > 0 {
		b.taken += more
		if b.room.taken.Add(more) > b.room.most {
			b.room.full()
			return n, errNoRoom
		}
	}
	return n, err
}

// giveBack makes room for others. It may be called more than once.
func (b *bodyShare) giveBack() {
	b.room.taken.Add(-b.taken)
	b.taken = 0
}
