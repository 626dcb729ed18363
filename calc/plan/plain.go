package plan

// runPlain improves the best plan of a job on which every panel may lie
// anywhere.
func (s *searcher) runPlain() {
	for !s.done() {
		s.climb()
	}
}
