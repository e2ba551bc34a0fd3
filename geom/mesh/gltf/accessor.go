package gltf

import (
	"encoding/binary"
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// The component types of an accessor (clause 3.6.2.2).
const (
	typeByte   = 5120
	typeUbyte  = 5121
	typeShort  = 5122
	typeUshort = 5123
	typeUint   = 5125
	typeFloat  = 5126
)

var sizes = map[int]int64{typeByte: 1, typeUbyte: 1, typeShort: 2, typeUshort: 2, typeUint: 4, typeFloat: 4}

// view is an accessor with its bytes: count elements, stride bytes apart.
type view struct {
	data       []byte
	count      int64
	stride     int64
	component  int
	normalized bool
	own        bool // no accessor: element i is i
}

// view returns an accessor of the wanted type, all of its bytes at hand.
func (d *decoder) view(i int, want string) (view, error) {
	d.Place.Part = fmt.Sprintf("accessors[%d]", i)
	if i < 0 || i >= len(d.document.Accessors) {
		return view{}, d.Fault("no such accessor", fmt.Sprintf("0 to %d", len(d.document.Accessors)-1), "export the file again")
	}
	a := &d.document.Accessors[i]
	size, known := sizes[a.ComponentType]
	elements := int64(1)
	if want == "VEC3" {
		elements = 3
	}
	whole := a.ComponentType != typeFloat
	unsigned := a.ComponentType == typeUbyte || a.ComponentType == typeUshort || a.ComponentType == typeUint
	switch {
	case a.Sparse != nil:
		return view{}, d.Fault("a sparse accessor", "plain accessors", "export the file again, without morph targets")
	case a.BufferView == nil:
		return view{}, d.Fault("an accessor without data", "a bufferView", "export the file again")
	case a.Type != want || !known:
		return view{}, d.Fault(fmt.Sprintf("%q of component type %d", a.Type, a.ComponentType), fmt.Sprintf("%q of component type 5120 to 5126", want), "export the file again")
	case want == "SCALAR" && (!unsigned || a.Normalized):
		return view{}, d.Fault(fmt.Sprintf("indices of component type %d", a.ComponentType), "5121, 5123 or 5125, not normalized", "export the file again")
	case want == "VEC3" && whole && !d.quantized():
		return view{}, d.Fault(fmt.Sprintf("positions of component type %d", a.ComponentType), "5126, or the extension KHR_mesh_quantization", "export the file again")
	case a.ComponentType == typeUint && want == "VEC3":
		return view{}, d.Fault("positions of component type 5125", "5120 to 5123 or 5126", "export the file again")
	case a.Count < 1 || a.Count > math.MaxInt32:
		return view{}, d.Fault(fmt.Sprintf("a count of %d", a.Count), "1 or more", "export the file again")
	}
	data, stride, err := d.viewBytes(*a.BufferView)
	if err != nil {
		return view{}, err
	}
	d.Place.Part = fmt.Sprintf("accessors[%d]", i)
	least := size * elements
	if stride == 0 {
		stride = least
	}
	if stride < least {
		return view{}, d.Fault(fmt.Sprintf("a byteStride of %d for elements of %d bytes", stride, least), "as many bytes or more", "export the file again")
	}
	// Count and stride are bounded, so that nothing overflows.
	if need := (a.Count-1)*stride + least; a.ByteOffset < 0 || a.ByteOffset > int64(len(data)) || need > int64(len(data))-a.ByteOffset {
		return view{}, d.Fault(fmt.Sprintf("%d elements from byte %d on, with %d bytes of data", a.Count, a.ByteOffset, len(data)), "a count that fits the data", "copy or export the file again: it is cut off")
	}
	d.Place.Part = ""
	return view{data: data[a.ByteOffset:], count: a.Count, stride: stride, component: a.ComponentType, normalized: a.Normalized}, nil
}

// viewBytes returns the bytes of a buffer view and its stride, 0 if packed.
func (d *decoder) viewBytes(i int) ([]byte, int64, error) {
	part := fmt.Sprintf("bufferViews[%d]", i)
	d.Place.Part = part
	if i < 0 || i >= len(d.document.BufferViews) {
		return nil, 0, d.Fault("no such buffer view", fmt.Sprintf("0 to %d", len(d.document.BufferViews)-1), "export the file again")
	}
	v := &d.document.BufferViews[i]
	if _, packed := v.Extensions["EXT_meshopt_compression"]; packed {
		return nil, 0, d.Fault("data compressed by EXT_meshopt_compression", "plain data", "export it without compression")
	}
	data, err := d.bufferBytes(v.Buffer)
	if err != nil {
		return nil, 0, err
	}
	d.Place.Part = part
	n := int64(len(data))
	if v.ByteOffset < 0 || v.ByteOffset > n || v.ByteLength < 0 || v.ByteLength > n-v.ByteOffset {
		return nil, 0, d.Fault(fmt.Sprintf("%d bytes from byte %d on, with %d bytes in the buffer", v.ByteLength, v.ByteOffset, n), "a part of the buffer", "copy or export the file again: it is cut off")
	}
	if v.ByteStride != 0 && (v.ByteStride < 4 || v.ByteStride > 252) {
		return nil, 0, d.Fault(fmt.Sprintf("a byteStride of %d", v.ByteStride), "4 to 252", "export the file again")
	}
	return data[v.ByteOffset : v.ByteOffset+v.ByteLength], v.ByteStride, nil
}

// quantized reports whether the document uses KHR_mesh_quantization.
func (d *decoder) quantized() bool {
	for _, x := range d.document.ExtensionsRequired {
		if x == "KHR_mesh_quantization" {
			return true
		}
	}
	return false
}

func (v view) vector(i int64) r3.Vec {
	return r3.Vec{X: v.number(i, 0), Y: v.number(i, 1), Z: v.number(i, 2)}
}

// number returns component k of element i; normalized whole numbers as shares
// of their largest value (clause 3.11).
func (v view) number(i, k int64) float64 {
	b := v.data[i*v.stride:]
	x, largest := 0.0, 1.0
	switch v.component {
	case typeByte:
		x, largest = float64(int8(b[k])), math.MaxInt8
	case typeUbyte:
		x, largest = float64(b[k]), math.MaxUint8
	case typeShort:
		x, largest = float64(int16(binary.LittleEndian.Uint16(b[2*k:]))), math.MaxInt16
	case typeUshort:
		x, largest = float64(binary.LittleEndian.Uint16(b[2*k:])), math.MaxUint16
	case typeUint:
		x = float64(binary.LittleEndian.Uint32(b[4*k:]))
	default:
		x = float64(math.Float32frombits(binary.LittleEndian.Uint32(b[4*k:])))
	}
	if v.normalized {
		return math.Max(x/largest, -1)
	}
	return x
}
