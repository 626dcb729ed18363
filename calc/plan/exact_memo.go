package plan

import "slices"

// memo is a hash set of the states of an exact search, each a sequence of words. Emptying
// it costs nothing.
type memo struct {
	slots []memoSlot // a power of two of them, or none
	words []uint64   // of all states
	round uint32     // slots of other rounds are empty
	used  int
}

type memoSlot struct {
	hash     uint64
	from, to uint32 // in words
	round    uint32
}

// The limits on the states and on their words in a memo.
const (
	maxMemo      = 200_000
	maxMemoWords = 1 << 22
)

// forget empties the memo.
func (m *memo) forget() {
	m.round++
	m.words, m.used = m.words[:0], 0
	if m.round == 0 {
		clear(m.slots)
		m.round = 1
	}
}

// add reports whether a state is in the memo, and adds it while there is room.
func (m *memo) add(state []uint64) bool {
	if 2*m.used >= len(m.slots) {
		m.grow()
	}
	hash := hashOf(state)
	at := m.find(hash, state)
	if m.slots[at].round == m.round {
		return true
	}
	if m.used < maxMemo && len(m.words)+len(state) <= maxMemoWords {
		from := uint32(len(m.words))
		m.words = append(m.words, state...)
		m.slots[at] = memoSlot{hash, from, uint32(len(m.words)), m.round}
		m.used++
	}
	return false
}

// find returns the slot of a state, or an empty one.
func (m *memo) find(hash uint64, state []uint64) uint64 {
	mask := uint64(len(m.slots) - 1)
	for at := hash & mask; ; at = (at + 1) & mask {
		s := &m.slots[at]
		if s.round != m.round || s.hash == hash && slices.Equal(m.words[s.from:s.to], state) {
			return at
		}
	}
}

// grow doubles the slots.
func (m *memo) grow() {
	old := m.slots
	m.slots = make([]memoSlot, max(2*len(old), 256))
	mask := uint64(len(m.slots) - 1)
	for _, s := range old {
		if s.round != m.round {
			continue
		}
		at := s.hash & mask
		for m.slots[at].round == m.round {
			at = (at + 1) & mask
		}
		m.slots[at] = s
	}
}

// hashOf mixes words: multiply and fold, as in the finalisers of S. Vigna's
// splitmix64 (from memory). States with one hash are still told apart.
func hashOf(state []uint64) uint64 {
	h := uint64(len(state))
	for _, w := range state {
		h = (h ^ w) * 0x9e3779b97f4a7c15
		h ^= h >> 29
	}
	return h ^ h>>32
}
