package httpapi

import (
	"context"
	"encoding/json"
	"net/http"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// compareFromWire translates a request, as requestFromWire does.
func compareFromWire(w *gen.CompareRequest) (service.CompareRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := service.CompareRequest{Units: unitsFrom(value(w.Units)), Sensitive: w.Sensitivity != nil}
	for i := range w.Cloths {
		here := root.Field("cloths").Index(i)
		c := &w.Cloths[i]
		one := service.CompareCloth{Cloth: t.cloth(&c.Cloth, here.Field("cloth")), Sold: t.sold(&c.Cloth, here.Field("cloth"))}
		if c.Price != nil {
			one.Price = t.price(c.Price, here.Field("price"))
		}
		req.Cloths = append(req.Cloths, one)
	}
	for i := range w.Panels {
		req.Panels = append(req.Panels, t.panel(&w.Panels[i], root.Field("panels").Index(i)))
	}
	switch value(w.RankBy) {
	case gen.CompareRankLength:
		req.RankBy = service.ByLength
	case gen.CompareRankCost:
		req.RankBy = service.ByCost
	case gen.CompareRankWaste:
		req.RankBy = service.ByWaste
	}
	s := value(w.Sensitivity)
	for _, l := range value(s.Widths) {
		req.Widths = append(req.Widths, lengthFrom(l))
	}
	for _, l := range value(s.LengthRepeats) {
		req.Repeats = append(req.Repeats, lengthFrom(l))
	}
	return req, t.shape
}

// AnswerCompare reads a request body and answers it, as AnswerYardage does.
func (s *Server) AnswerCompare(ctx context.Context, body []byte) (*service.CompareAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/yardage/compare", body, func(ctx context.Context, req service.CompareRequest) (*service.CompareAnswer, error) {
		return s.compare(ctx, req, nil)
	})
}

// compare compares cloths when its turn has come.
func (s *Server) compare(ctx context.Context, req service.CompareRequest, each func(service.ComparedCloth)) (*service.CompareAnswer, error) {
	return inTurn(ctx, s, func(ctx context.Context) (*service.CompareAnswer, error) {
		n, back := s.workers()
		defer back()
		return service.Compare(ctx, req, n, each)
	})
}

// YardageCompare answers POST /v1/yardage/compare.
func (h handlers) YardageCompare(ctx context.Context, _ gen.YardageCompareRequestObject) (gen.YardageCompareResponseObject, error) {
	if ctx.Value(mediaKey) != mediaLines {
		all := func(ctx context.Context, req service.CompareRequest) (*service.CompareAnswer, error) {
			return h.compare(ctx, req, nil)
		}
		return answered(ctx, all, wireCompare, drawing.ComparePicture)
	}
	in, err := read[service.CompareRequest](ctx)
	if err != nil {
		return nil, err
	}
	return &comparison{h: h, ctx: ctx, in: in}, nil
}

// VisitYardageCompareResponse sends the answer.
func (r reply) VisitYardageCompareResponse(w http.ResponseWriter) error { return r.write(w) }

// comparison is an answer that is sent line by line while it is made.
type comparison struct {
	h   handlers
	ctx context.Context //nolint:containedctx // of the request that it answers
	in  *input[service.CompareRequest]
}

// VisitYardageCompareResponse makes the answer and sends each cloth as soon as it
// is done. When the first line is not sent yet, a failure is a problem like any
// other; later it breaks the answer off, so that nobody takes it for whole.
func (c *comparison) VisitYardageCompareResponse(w http.ResponseWriter) error {
	begun := false
	lines := json.NewEncoder(w)
	send := func(v any) {
		if !begun {
			begun = true
			w.Header().Set("Content-Type", mediaLines)
			w.Header().Set("Cache-Control", "no-store")
			w.Header().Set("Vary", "Accept")
			w.WriteHeader(http.StatusOK)
		}
		_ = lines.Encode(v) // a client that has gone ends the context
		if f, ok := w.(http.Flusher); ok {
			f.Flush()
		}
	}
	q := answerWriter{units: c.in.request.Units}
	ans, err := c.h.compare(c.ctx, c.in.request, func(one service.ComparedCloth) { send(q.compared(c.in.request, one)) })
	switch {
	case err != nil && begun:
		panic(http.ErrAbortHandler)
	case err != nil:
		return err
	}
	last := wireCompare(ans, c.in.digest)
	send(compareEnd{last.RankedBy, ranking(ans), last.Sensitivity, last.Warnings, last.Engine, last.InputDigest})
	return nil
}

// compareEnd is the last line of an answer in lines.
type compareEnd struct {
	RankedBy    gen.CompareRank    `json:"rankedBy"`
	Ranking     []int              `json:"ranking"`
	Sensitivity []gen.CompareTried `json:"sensitivity"`
	Warnings    []gen.Note         `json:"warnings"`
	Engine      string             `json:"engine"`
	InputDigest string             `json:"inputDigest"`
}

// ranking are the cloths by their number in the request, the best first.
func ranking(ans *service.CompareAnswer) []int {
	list := make([]int, len(ans.Cloths))
	for i, c := range ans.Cloths {
		list[i] = c.Index
	}
	return list
}

// wireCompare is the answer as the contract has it.
func wireCompare(ans *service.CompareAnswer, digest string) gen.CompareAnswer {
	w := answerWriter{units: ans.Request.Units}
	g := gen.CompareAnswer{
		RankedBy: rankText(ans.RankedBy), Cloths: make([]gen.ComparedCloth, len(ans.Cloths)), Sensitivity: []gen.CompareTried{},
		Warnings: wireNotes(w.units, ans.Warnings), Engine: service.EngineVersion, InputDigest: digest,
	}
	for i, c := range ans.Cloths {
		g.Cloths[i] = w.compared(ans.Request, c)
	}
	for _, s := range ans.Sensitivity {
		one := gen.CompareTried{Width: w.quantity(s.Width, length.Nearest), LengthRepeat: w.quantity(s.Repeat, length.Nearest), Usable: s.Usable}
		if s.Usable {
			one.Order, one.Needed = w.some(s.Order, length.Up), w.some(s.Needed, length.Up)
		}
		g.Sensitivity = append(g.Sensitivity, one)
	}
	return g
}

func (w answerWriter) some(l length.Length, r length.Rounding) *gen.Quantity {
	q := w.quantity(l, r)
	return &q
}

func (w answerWriter) compared(req service.CompareRequest, c service.ComparedCloth) gen.ComparedCloth {
	g := gen.ComparedCloth{Cloth: c.Index, Usable: c.Usable, Reason: wireNote(w.units, c.Reason)}
	set(&g.Name, req.Cloths[c.Index].Name)
	if !c.Usable {
		return g
	}
	g.Order, g.Needed, g.Bound = w.some(c.Order, length.Up), w.some(c.Needed, length.Up), w.some(c.Bound, length.Down)
	if c.Plain > 0 {
		g.Plain = w.some(c.Plain, length.Up)
	}
	g.Waste, g.Loosened = &c.Waste, &c.Loosened
	if c.Cost != nil {
		cost := wireMoney(*c.Cost)
		g.Cost = &cost
	}
	return g
}

func rankText(r service.Rank) gen.CompareRank {
	switch r {
	case service.ByCost:
		return gen.CompareRankCost
	case service.ByWaste:
		return gen.CompareRankWaste
	}
	return gen.CompareRankLength
}
