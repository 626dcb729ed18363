package piping

import (
	"cmp"
	"sort"

	"github.com/bridletie/bridletie/calc/length"
)

// scrap is what is still uncut of a strip.
type scrap struct {
	long  length.Length
	strip int
	from  length.Length
}

func (a scrap) compare(b scrap) int {
	return cmp.Or(cmp.Compare(a.long, b.long), cmp.Compare(a.strip, b.strip), cmp.Compare(a.from, b.from))
}

// stock is scraps in order of length, in buckets so that thousands are put in and
// taken out in little time.
type stock struct{ buckets [][]scrap }

// fullBucket is how many scraps a bucket holds before it is split.
const fullBucket = 128

// find is the place of the first scrap that is not before s.
func (k *stock) find(s scrap) (bucket, at int) {
	bucket = sort.Search(len(k.buckets), func(i int) bool {
		b := k.buckets[i]
		return b[len(b)-1].compare(s) >= 0
	})
	if bucket == len(k.buckets) {
		return bucket, 0
	}
	b := k.buckets[bucket]
	return bucket, sort.Search(len(b), func(i int) bool { return b[i].compare(s) >= 0 })
}

func (k *stock) put(s scrap) {
	if len(k.buckets) == 0 {
		k.buckets = [][]scrap{{s}}
		return
	}
	i, at := k.find(s)
	if i == len(k.buckets) {
		i--
		at = len(k.buckets[i])
	}
	b := append(k.buckets[i], scrap{})
	copy(b[at+1:], b[at:])
	b[at] = s
	k.buckets[i] = b
	if len(b) < fullBucket {
		return
	}
	half := append([]scrap(nil), b[fullBucket/2:]...)
	k.buckets[i] = b[:fullBucket/2]
	k.buckets = append(k.buckets, nil)
	copy(k.buckets[i+2:], k.buckets[i+1:])
	k.buckets[i+1] = half
}

// take removes a scrap that is there.
func (k *stock) take(s scrap) {
	i, at := k.find(s)
	b := k.buckets[i]
	b = append(b[:at], b[at+1:]...)
	k.buckets[i] = b
	if len(b) == 0 {
		k.buckets = append(k.buckets[:i], k.buckets[i+1:]...)
	}
}

// atLeast is the shortest scrap that is not shorter than l.
func (k *stock) atLeast(l length.Length) (scrap, bool) {
	i, at := k.find(scrap{long: l, strip: -1})
	if i == len(k.buckets) {
		return scrap{}, false
	}
	return k.buckets[i][at], true
}

// below is the last scrap before s.
func (k *stock) below(s scrap) (scrap, bool) {
	i, at := k.find(s)
	if at > 0 {
		return k.buckets[i][at-1], true
	}
	if i == 0 {
		return scrap{}, false
	}
	b := k.buckets[i-1]
	return b[len(b)-1], true
}

// longest is the longest scrap.
func (k *stock) longest() (scrap, bool) {
	if len(k.buckets) == 0 {
		return scrap{}, false
	}
	b := k.buckets[len(k.buckets)-1]
	return b[len(b)-1], true
}
