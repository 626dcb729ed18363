package httpapi

import "context"

// HoldLight takes a place in the light lane until it is released.
func (s *Server) HoldLight(release chan bool) {
	leave, err := s.light.Enter(context.Background())
	if err != nil {
		panic(err)
	}
	go func() {
		<-release
		leave()
	}()
}
