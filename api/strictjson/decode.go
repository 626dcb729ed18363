package strictjson

import (
	"encoding/json"
	"errors"
	"reflect"
	"strconv"
	"strings"
	"sync"
)

// errDecode reports that Decode cannot put a value into a type. Decode then falls back to
// encoding/json, which returns the reason.
var errDecode = errors.New("strictjson: decode")

// Decode stores the value in the variable that into points to, as json.Unmarshal does with
// the canonical form, but without encoding and parsing it again. Names must match the type
// exactly. For types that it does not support it calls json.Unmarshal.
func (v *Value) Decode(into any) error {
	to := reflect.ValueOf(into)
	if to.Kind() == reflect.Pointer && !to.IsNil() && decoderOf(to.Type().Elem())(v, to.Elem()) == nil {
		return nil
	}
	if to.Kind() == reflect.Pointer && !to.IsNil() {
		to.Elem().SetZero()
	}
	return json.Unmarshal(v.Canonical(), into)
}

// decoder stores a value in a variable of one type.
type decoder func(v *Value, into reflect.Value) error

// decoders caches the decoders, by type.
var decoders sync.Map

func decoderOf(t reflect.Type) decoder {
	if known, ok := decoders.Load(t); ok {
		return known.(decoder)
	}
	// A recursive type finds this entry while its decoder is made.
	var made decoder
	var once sync.Once
	decoders.Store(t, decoder(func(v *Value, into reflect.Value) error {
		once.Do(func() { made = newDecoder(t) })
		return made(v, into)
	}))
	once.Do(func() { made = newDecoder(t) })
	decoders.Store(t, made)
	return made
}

var unmarshaler = reflect.TypeFor[json.Unmarshaler]()

func newDecoder(t reflect.Type) decoder {
	if reflect.PointerTo(t).Implements(unmarshaler) {
		return func(v *Value, into reflect.Value) error {
			u, _ := into.Addr().Interface().(json.Unmarshaler)
			return u.UnmarshalJSON(v.Canonical())
		}
	}
	switch t.Kind() {
	case reflect.String:
		return decodeString
	case reflect.Bool:
		return decodeBool
	case reflect.Int:
		return decodeInt
	case reflect.Float64:
		return decodeFloat
	case reflect.Pointer:
		return pointerDecoder(t)
	case reflect.Slice:
		return sliceDecoder(t)
	case reflect.Map:
		return mapDecoder(t)
	case reflect.Struct:
		return structDecoder(t)
	}
	return func(*Value, reflect.Value) error { return errDecode }
}

func decodeString(v *Value, into reflect.Value) error {
	if v.Kind != String {
		return errDecode
	}
	into.SetString(v.Text)
	return nil
}

func decodeBool(v *Value, into reflect.Value) error {
	if v.Kind != Bool {
		return errDecode
	}
	into.SetBool(v.Text == "true")
	return nil
}

func decodeInt(v *Value, into reflect.Value) error {
	n, err := strconv.ParseInt(v.Text, 10, 64)
	if v.Kind != Number || err != nil || into.OverflowInt(n) {
		return errDecode
	}
	into.SetInt(n)
	return nil
}

func decodeFloat(v *Value, into reflect.Value) error {
	f, err := strconv.ParseFloat(v.Text, 64)
	if v.Kind != Number || err != nil {
		return errDecode
	}
	into.SetFloat(f)
	return nil
}

func pointerDecoder(t reflect.Type) decoder {
	inner := decoderOf(t.Elem())
	return func(v *Value, into reflect.Value) error {
		if v.Kind == Null {
			return errDecode
		}
		p := reflect.New(t.Elem())
		if err := inner(v, p.Elem()); err != nil {
			return err
		}
		into.Set(p)
		return nil
	}
}

func sliceDecoder(t reflect.Type) decoder {
	if t.Elem().Kind() == reflect.Uint8 { // encoded as base64
		return func(*Value, reflect.Value) error { return errDecode }
	}
	inner := decoderOf(t.Elem())
	return func(v *Value, into reflect.Value) error {
		if v.Kind != Array {
			return errDecode
		}
		list := reflect.MakeSlice(t, len(v.Items), len(v.Items))
		for i := range v.Items {
			if err := inner(&v.Items[i], list.Index(i)); err != nil {
				return err
			}
		}
		into.Set(list)
		return nil
	}
}

func mapDecoder(t reflect.Type) decoder {
	if t.Key() != reflect.TypeFor[string]() {
		return func(*Value, reflect.Value) error { return errDecode }
	}
	inner := decoderOf(t.Elem())
	return func(v *Value, into reflect.Value) error {
		if v.Kind != Object {
			return errDecode
		}
		all := reflect.MakeMapWithSize(t, len(v.Members))
		for i := range v.Members {
			one := reflect.New(t.Elem()).Elem()
			if err := inner(&v.Members[i].Value, one); err != nil {
				return err
			}
			all.SetMapIndex(reflect.ValueOf(v.Members[i].Name), one)
		}
		into.Set(all)
		return nil
	}
}

// structDecoder returns a decoder for a struct with plain fields. A struct with other
// fields is left to encoding/json.
func structDecoder(t reflect.Type) decoder {
	type field struct {
		index  int
		decode decoder
	}
	fields := make(map[string]field, t.NumField())
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case !f.IsExported() && !f.Anonymous, name == "-" && options == "":
			continue
		case f.Anonymous, name == "", strings.Contains(options, "string"):
			return func(*Value, reflect.Value) error { return errDecode }
		}
		fields[name] = field{i, decoderOf(f.Type)}
	}
	return func(v *Value, into reflect.Value) error {
		if v.Kind != Object {
			return errDecode
		}
		for i := range v.Members {
			f, ok := fields[v.Members[i].Name]
			if !ok {
				return errDecode
			}
			if err := f.decode(&v.Members[i].Value, into.Field(f.index)); err != nil {
				return err
			}
		}
		return nil
	}
}
