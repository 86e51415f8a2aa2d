package engine

import (
	"context"
	"errors"
	"fmt"
	"reflect"

	"github.com/klippa-app/go-pdfium"
)

// raw calls PDFium's exported functions without the bookkeeping of the public
// methods, which look handles up by text and allocate for every argument: a
// page has thousands of glyphs, and each needs five calls.
//
// The types behind GetImplementation are internal, so their two methods are
// found by name once an instance, and used through the interfaces below.
type raw struct {
	ctx    context.Context
	lookup reflect.Value
	fns    map[string]caller
	mem    memory
	stack  [16]uint64
	err    error // the first failure; later calls do nothing
}

type caller interface {
	CallWithStack(ctx context.Context, stack []uint64) error
}

type memory interface {
	Size() uint32
	Read(offset, byteCount uint32) ([]byte, bool)
	ReadUint32Le(offset uint32) (uint32, bool)
	ReadFloat32Le(offset uint32) (float32, bool)
	ReadFloat64Le(offset uint32) (float64, bool)
	Write(offset uint32, v []byte) bool
}

var errShape = errors.New("this build of the PDF engine has no direct calls")

func direct(ctx context.Context, inst pdfium.Pdfium) (r *raw, err error) {
	defer func() {
		if p := recover(); p != nil {
			r, err = nil, fmt.Errorf("%w (%v)", errShape, p)
		}
	}()
	impl := reflect.ValueOf(inst.GetImplementation())
	lookup := impl.MethodByName("Fn")
	module := impl.Elem().FieldByName("Module")
	if !lookup.IsValid() || !module.IsValid() {
		return nil, errShape
	}
	mem, ok := module.Interface().(interface{}), true
	m := reflect.ValueOf(mem).MethodByName("Memory").Call(nil)[0].Interface()
	view, ok := m.(memory)
	if !ok {
		return nil, errShape
	}
	return &raw{ctx: ctx, lookup: lookup, fns: map[string]caller{}, mem: view}, nil
}

func (r *raw) fn(name string) caller {
	if f, ok := r.fns[name]; ok {
		return f
	}
	out := r.lookup.Call([]reflect.Value{reflect.ValueOf(name)})[0]
	var f caller
	if !out.IsNil() {
		f, _ = out.Interface().(caller)
	}
	r.fns[name] = f
	return f
}

// use calls a function found with fn. After a failure it returns 0.
func (r *raw) use(f caller, args ...uint64) uint64 {
	if r.err != nil {
		return 0
	}
	if f == nil {
		r.err = errShape
		return 0
	}
	r.stack[0] = 0
	copy(r.stack[:], args)
	if err := f.CallWithStack(r.ctx, r.stack[:]); err != nil {
		r.err = err
		return 0
	}
	return r.stack[0]
}

func (r *raw) call(name string, args ...uint64) uint64 { return r.use(r.fn(name), args...) }

// count is a call whose result is a signed int; failure gives 0.
func (r *raw) count(name string, args ...uint64) int {
	n := int(int32(uint32(r.call(name, args...))))
	if n < 0 || r.err != nil {
		return 0
	}
	return n
}

func (r *raw) alloc(n int) uint32 {
	p := uint32(r.call("malloc", uint64(n)))
	if p == 0 && r.err == nil {
		r.err = errors.New("the PDF needs more memory than one document may take")
	}
	return p
}

func (r *raw) f64(at uint32) float64 { v, _ := r.mem.ReadFloat64Le(at); return v }
func (r *raw) f32(at uint32) float64 { v, _ := r.mem.ReadFloat32Le(at); return float64(v) }
func (r *raw) u32(at uint32) uint32  { v, _ := r.mem.ReadUint32Le(at); return v }
