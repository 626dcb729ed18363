package service

import (
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// EstimateFaults are everything wrong with the request; pointers are those of the
// wire form. Whether the piece can be cut from the cloth at all is asked only
// when nothing else is wrong.
func EstimateFaults(req EstimateRequest) fault.List {
	l := EstimateFieldFaults(req)
	if l.Len() > 0 {
		return l
	}
	for corner := -1; corner <= 1; corner++ {
		k, sold := req.clothAt(corner)
		panels, _ := fitted(req.pieceAt(corner, "").List().CutFrom(furniture.Top, k), k)
		bad := panel.ClothFaults(panels, k, sold.Bolt, fault.Path{})
		if bad.Len() > 0 {
			f := bad.Faults()[0]
			at := fault.At("clothWidth")
			if req.Cloth != nil {
				at = fault.At("cloth").Field("width")
			}
			l.Add(at, f.Code, k.Width.String(), f.Detail, "a wider cloth")
			return l
		}
	}
	return l
}

// EstimateFieldFaults are what is wrong with the fields, each by itself and with
// one another.
func EstimateFieldFaults(req EstimateRequest) fault.List {
	root := fault.Path{}
	l := req.Piece.Faults(root)
	if c := req.Cloth; c != nil {
		l.Append(c.Faults(root.Field("cloth")))
		l.Append(c.Sold.Faults(root.Field("cloth")))
	} else {
		req.Shop.Check(&l, root.Field("clothWidth"), "the usable width", practice.UsualCloth)
	}
	band, labour := req.Band, req.Labour
	if band != nil && band.High.Cmp(band.Low.Money) < 0 {
		l.Add(root.Field("price").Field("high"), fault.TooSmall, band.High.Text(), "the band ends below where it begins", "at least "+band.Low.Text())
	}
	if band != nil && labour != nil && band.Low.Code() != labour.Hour.Code() {
		l.Add(root.Field("labour").Field("currency"), fault.NotAllowed, labour.Hour.Code(), "the cloth is priced in another currency", "give both in "+band.Low.Code())
	}
	return l
}
