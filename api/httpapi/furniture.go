package httpapi

import (
	"context"
	"encoding/json"
	"net/http"
	"sync"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// furnitureDocument is all that GET /v1/furniture answers.
func furnitureDocument() (document, error) {
	list := gen.Furniture{Engine: service.EngineVersion}
	for _, k := range furniture.Kinds() {
		list.Kinds = append(list.Kinds, wire.FurnitureKindOut(k))
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

// Furniture answers GET /v1/furniture.
func (h handlers) Furniture(ctx context.Context, _ gen.FurnitureRequestObject) (gen.FurnitureResponseObject, error) {
	return serve(ctx, h.furniture, "application/json"), nil
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
		for _, media := range []string{contract.JSON, contract.SVG, contract.PDF} {
			all[guideForm{k.ID, media}] = sync.OnceValues(func() (document, error) {
				body, err := written(media, func() any { return wire.FurnitureKindOut(k) }, func() drawn { return drawing.MeasuringPicture(k, length.Metric) })
				return newDocument(body), err
			})
		}
	}
	return all
}

// FurniturePicture answers GET /v1/furniture/{kind}/picture.
func (h handlers) FurniturePicture(ctx context.Context, r gen.FurniturePictureRequestObject) (gen.FurniturePictureResponseObject, error) {
	picture, ok := h.pictures[r.Kind]
	if !ok {
		return nil, problem(notFound, "")
	}
	return serve(ctx, picture(), contract.SVG), nil
}

// VisitFurniturePictureResponse writes the answer.
func (s served) VisitFurniturePictureResponse(w http.ResponseWriter) error { return s.write(w) }

// VisitFurnitureKindResponse writes the answer.
func (s served) VisitFurnitureKindResponse(w http.ResponseWriter) error {
	w.Header().Set("Vary", "Accept")
	return s.write(w)
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
	return answered(ctx, cuttingList, wire.CuttingListOut, drawing.CuttingListPicture)
}

// VisitCuttingListResponse sends the answer.
func (r reply) VisitCuttingListResponse(w http.ResponseWriter) error { return r.write(w) }
