package plan

// stairMemo remembers skylines and sets of panels that lead to no plan, as many
// as its table takes.
type stairMemo struct {
	slots []stairKey
}

// stairKey is a mask of panels, of which at least one waits, and the hash of a
// skyline.
type stairKey struct{ mask, sky uint64 }

const (
	leastMemo = 1 << 12
	mostMemo  = 1 << 19
)

// clear forgets everything.
func (m *stairMemo) clear() { clear(m.slots) }

// grow makes room for a search of so much work.
func (m *stairMemo) grow(work int64) {
	size := leastMemo
	for size < mostMemo && int64(size) < work/8 {
		size *= 2
	}
	if size <= len(m.slots) {
		return
	}
	old := m.slots
	m.slots = make([]stairKey, size)
	for _, k := range old {
		if k.mask != 0 {
			m.put(k.mask, k.sky)
		}
	}
}

func (m *stairMemo) slot(mask, sky uint64) *stairKey {
	return &m.slots[mix(mask^mix(sky))&uint64(len(m.slots)-1)]
}

func (m *stairMemo) has(mask, sky uint64) bool {
	return *m.slot(mask, sky) == stairKey{mask, sky}
}

func (m *stairMemo) put(mask, sky uint64) { *m.slot(mask, sky) = stairKey{mask, sky} }
