package drawing

import "github.com/bridletie/bridletie/service"

func ButtoningSVG(ans *service.ButtoningAnswer) []byte  { return nil }
func ButtoningText(ans *service.ButtoningAnswer) string { return "" }
