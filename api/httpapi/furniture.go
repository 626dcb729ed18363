package httpapi

import (
	"context"
	"encoding/json"
	"maps"
	"net/http"
	"slices"
	"sync"

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
	return newPacked(append(body, '\n')), nil
}

// furniturePictures are those of GET /v1/furniture/{kind}/picture, each drawn when
// it is first asked for.
func furniturePictures() map[string]func() document {
	pictures := make(map[string]func() document)
	for _, k := range furniture.Kinds() {
		pictures[k.ID] = sync.OnceValue(func() document { return newPacked(drawing.PieceSVG(k)) })
	}
	return pictures
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
	return serve(ctx, h.contract.furniture, "application/json"), nil
}

// VisitFurnitureResponse writes the answer.
func (s served) VisitFurnitureResponse(w http.ResponseWriter) error { return s.write(w) }

// FurnitureKind answers GET /v1/furniture/{kind}.
func (h handlers) FurnitureKind(ctx context.Context, r gen.FurnitureKindRequestObject) (gen.FurnitureKindResponseObject, error) {
	media, _ := ctx.Value(mediaKey).(string)
	draw, ok := h.guides[guideForm{r.Kind, media}]
	if !ok {
		return nil, problem(notFound, "")
	}
	guide, err := draw()
	if err != nil {
		return nil, err
	}
	return serve(ctx, guide, media), nil
}

// guideForm is the guide to a kind of furniture in one form.
type guideForm struct{ kind, media string }

// measuringGuides are the guides to all kinds. They never change, so each is
// made once, when it is first asked for: whoever asks again with its tag has no
// picture drawn.
func measuringGuides() map[guideForm]func() (document, error) {
	all := make(map[guideForm]func() (document, error))
	for _, k := range furniture.Kinds() {
		for _, media := range []string{mediaJSON, mediaSVG, mediaPDF} {
			all[guideForm{k.ID, media}] = sync.OnceValues(func() (document, error) {
				body, err := written(media, func() any { return wireKind(k) }, func() drawn { return drawing.MeasuringPicture(k, length.Metric) })
				return newDocument(body), err
			})
		}
	}
	return all
}

// FurniturePicture answers GET /v1/furniture/{kind}/picture.
func (h handlers) FurniturePicture(ctx context.Context, r gen.FurniturePictureRequestObject) (gen.FurniturePictureResponseObject, error) {
	picture, ok := h.contract.pictures[r.Kind]
	if !ok {
		return nil, problem(notFound, "")
	}
	return serve(ctx, picture(), mediaSVG), nil
}

// VisitFurniturePictureResponse writes the answer.
func (s served) VisitFurniturePictureResponse(w http.ResponseWriter) error { return s.write(w) }

// VisitFurnitureKindResponse writes the answer.
func (s served) VisitFurnitureKindResponse(w http.ResponseWriter) error {
	w.Header().Set("Vary", "Accept")
	return s.write(w)
}

// cuttingListFromWire translates a request, as requestFromWire does.
func cuttingListFromWire(w *gen.CuttingListRequest) (service.CuttingListRequest, fault.List) {
	var t translator
	root := fault.Path{}
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
	return answered(ctx, cuttingList, wireCuttingList, drawing.CuttingListPicture)
}

// VisitCuttingListResponse sends the answer.
func (r reply) VisitCuttingListResponse(w http.ResponseWriter) error { return r.write(w) }
