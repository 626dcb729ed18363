package httpapi

import (
	"bytes"
	"context"
	"encoding/json"
	"maps"
	"net/http"
	"slices"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// furnitureDocument is all that GET /v1/furniture answers.
func furnitureDocument() (document, error) {
	list := gen.Furniture{Engine: service.EngineVersion}
	for _, k := range furniture.Kinds() {
		list.Kinds = append(list.Kinds, wireKind(k))
	}
	body, err := json.Marshal(list)
	if err != nil {
		return document{}, err
	}
	return newDocument(append(body, '\n')), nil
}

func wireKind(k furniture.Kind) gen.FurnitureKind {
	w := answerWriter{}
	g := gen.FurnitureKind{Kind: k.ID, Name: k.Name, About: k.About, Measures: []gen.FurnitureMeasure{}, Options: []gen.FurnitureOption{}}
	for _, m := range k.Measures {
		g.Measures = append(g.Measures, gen.FurnitureMeasure{
			Measure: m.ID, Name: m.Name, How: m.How,
			Typical: w.quantity(m.Typical, length.Nearest), Least: w.quantity(m.Least, length.Up), Most: w.quantity(m.Most, length.Down),
		})
	}
	for _, o := range k.Options {
		one := gen.FurnitureOption{Option: o.ID, Name: o.Name}
		for _, c := range o.Choices {
			one.Choices = append(one.Choices, gen.FurnitureChoice{Choice: c.ID, Name: c.Name})
		}
		g.Options = append(g.Options, one)
	}
	return g
}

// Furniture answers GET /v1/furniture.
func (h handlers) Furniture(ctx context.Context, _ gen.FurnitureRequestObject) (gen.FurnitureResponseObject, error) {
	return served{h.contract.furniture, "application/json", ifNoneMatch(ctx)}, nil
}

// VisitFurnitureResponse writes the answer.
func (s served) VisitFurnitureResponse(w http.ResponseWriter) error { return s.write(w) }

// FurnitureKind answers GET /v1/furniture/{kind}.
func (h handlers) FurnitureKind(ctx context.Context, r gen.FurnitureKindRequestObject) (gen.FurnitureKindResponseObject, error) {
	k, ok := furniture.Find(r.Kind)
	if !ok {
		return nil, problem(notFound, "")
	}
	media, _ := ctx.Value(mediaKey).(string)
	body, err := []byte(nil), error(nil)
	switch media {
	case mediaSVG:
		body = drawing.MeasuringSVG(k, length.Metric)
	case mediaPDF:
		body, err = printed(drawing.MeasuringPicture(k, length.Metric), length.Metric)
	default:
		media = "application/json"
		if body, err = json.Marshal(wireKind(k)); err == nil {
			body = append(body, '\n')
		}
	}
	if err != nil {
		return nil, err
	}
	return served{newDocument(body), media, ifNoneMatch(ctx)}, nil
}

// VisitFurnitureKindResponse writes the answer.
func (s served) VisitFurnitureKindResponse(w http.ResponseWriter) error {
	w.Header().Set("Vary", "Accept")
	return s.write(w)
}

// cuttingListFromWire translates a request, as requestFromWire does.
func cuttingListFromWire(w *gen.CuttingListRequest) (service.CuttingListRequest, fault.List) {
	var t translator
	root := fault.Path("")
	req := service.CuttingListRequest{Piece: furniture.Piece{
		Kind: w.Kind, Count: 1, Units: unitsFrom(value(w.Units)), Motif: value(w.Motif),
		Measures: make(map[string]length.Length), Options: value(w.Options),
	}}
	if w.Count != nil {
		req.Piece.Count = *w.Count
	}
	given := value(w.Measures)
	for _, id := range slices.Sorted(maps.Keys(given)) {
		req.Piece.Measures[id] = lengthFrom(given[id])
	}
	if a := w.Allow; a != nil {
		at := root.Field("allow")
		req.Piece.Allow = furniture.Allowances{
			Seam: t.positive(a.Seam, at.Field("seam")), Pull: t.positive(a.Pull, at.Field("pull")),
			Tuck: t.positive(a.Tuck, at.Field("tuck")), Under: t.positive(a.Under, at.Field("under")),
		}
	}
	if w.Cloth != nil {
		c := t.cloth(w.Cloth, root.Field("cloth"))
		req.Cloth = &c
	}
	if w.OutsideCloth != nil {
		c := t.cloth(w.OutsideCloth, root.Field("outsideCloth"))
		req.Outside = &c
	}
	req.Drop = value(w.Drop)
	for id, c := range value(w.Covers) {
		if req.Covers == nil {
			req.Covers = make(map[string]furniture.Cover)
		}
		req.Covers[id] = map[gen.CuttingListCover]furniture.Cover{
			gen.CuttingListCoverTop: furniture.Top, gen.CuttingListCoverOutside: furniture.Outside, gen.CuttingListCoverLining: furniture.Lining,
		}[c]
	}
	for i, p := range value(w.Replace) {
		req.Replace = append(req.Replace, t.panel(&p, root.Field("replace").Index(i)))
	}
	return req, t.shape
}

// AnswerCuttingList reads a request body and answers it, as AnswerYardage does.
func (s *Server) AnswerCuttingList(ctx context.Context, body []byte) (*service.CuttingListAnswer, *Problem) {
	return answerTo(ctx, s, "POST /v1/cutting-list", body, cuttingList)
}

func cuttingList(_ context.Context, req service.CuttingListRequest) (*service.CuttingListAnswer, error) {
	return service.CuttingList(req), nil
}

// CuttingList answers POST /v1/cutting-list.
func (h handlers) CuttingList(ctx context.Context, _ gen.CuttingListRequestObject) (gen.CuttingListResponseObject, error) {
	in, err := read[service.CuttingListRequest](ctx)
	if err != nil {
		return nil, err
	}
	ans := service.CuttingList(in.request)
	vary, store := "Accept", "no-store"
	headers := gen.CuttingList200ResponseHeaders{CacheControl: &store, Vary: &vary}
	switch ctx.Value(mediaKey) {
	case mediaSVG:
		svg := drawing.CuttingListSVG(ans)
		return gen.CuttingList200ImagesvgXmlResponse{Body: bytes.NewReader(svg), Headers: headers, ContentLength: int64(len(svg))}, nil
	case mediaPDF:
		pdf, err := printed(drawing.CuttingListPicture(ans), ans.Request.Piece.Units)
		if err != nil {
			return nil, err
		}
		return gen.CuttingList200ApplicationpdfResponse{Body: bytes.NewReader(pdf), Headers: headers, ContentLength: int64(len(pdf))}, nil
	}
	return gen.CuttingList200JSONResponse{Body: wireCuttingList(ans, in.digest), Headers: headers}, nil
}
