package piping

import (
	"cmp"
	"slices"
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
	b := slices.Insert(k.buckets[i], at, s)
	k.buckets[i] = b
	if len(b) < fullBucket {
		return
	}
	k.buckets[i] = b[:fullBucket/2]
	k.buckets = slices.Insert(k.buckets, i+1, slices.Clone(b[fullBucket/2:]))
}

// take removes a scrap that is there.
func (k *stock) take(s scrap) {
	i, at := k.find(s)
	b := slices.Delete(k.buckets[i], at, at+1)
	k.buckets[i] = b
	if len(b) == 0 {
		k.buckets = slices.Delete(k.buckets, i, i+1)
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
