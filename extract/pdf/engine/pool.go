// Package engine turns the bytes of a PDF into glyph.Pages with PDFium, which
// runs as WebAssembly inside the process: no C compiler, no access to files,
// and a crash of the engine is an error here.
//
//	bytes → Engine.Read → glyph.Page, page by page
//
// One Engine serves the whole process. It compiles PDFium once (the result is
// kept in the user's cache folder) and gives every document an instance of its
// own, which is thrown away afterwards because WebAssembly memory never
// shrinks.
package engine

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/experimental"

	"probity/extract/pdf/glyph"
)

// Options set up an Engine. The zero value is right for most.
type Options struct {
	Cache  string // folder for compiled code; "": a folder of ours in the user's cache
	Memory int    // MiB one document may take; 0: 512
	Jobs   int    // documents read at once; 0: one a core
}

// An Engine reads PDFs. It is safe for use from several goroutines.
type Engine struct {
	pool  pdfium.Pool
	slots chan struct{} // documents being read
	note  string
}

// Start compiles PDFium, or loads what an earlier run has compiled. A cache
// folder that cannot be used is not an error: Note then says so, and starting
// takes some seconds instead of a tenth of one.
func Start(opt Options) (*Engine, error) {
	if opt.Memory <= 0 {
		opt.Memory = 512
	}
	if opt.Jobs <= 0 {
		opt.Jobs = runtime.GOMAXPROCS(0)
	}
	cache, note := openCache(opt.Cache)
	pool, err := initPool(opt, cache)
	if err != nil && cache != nil {
		note = fmt.Sprintf("the compiled PDF engine in the cache could not be used (%v)", err)
		pool, err = initPool(opt, nil)
	}
	if err != nil {
		return nil, fmt.Errorf("the PDF engine does not start: %w", err)
	}
	return &Engine{pool: pool, slots: make(chan struct{}, opt.Jobs), note: note}, nil
}

// Note says what slowed the start, or nothing.
func (e *Engine) Note() string { return e.note }

// Close gives the engine's memory back.
func (e *Engine) Close() error { return e.pool.Close() }

// abandoned is how many documents may hang in the engine for good before the
// others have to wait.
const abandoned = 16

// pageBytes is the size of a page of WebAssembly memory.
const pageBytes = 64 << 10

func initPool(opt Options, cache wazero.CompilationCache) (pool pdfium.Pool, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%v", r)
		}
	}()
	// PDFium's setjmp is compiled to WebAssembly exceptions.
	config := wazero.NewRuntimeConfig().
		WithCoreFeatures(api.CoreFeaturesV2 | experimental.CoreFeaturesExceptionHandling).
		WithMemoryLimitPages(uint32(opt.Memory << 20 / pageBytes))
	if cache != nil {
		config = config.WithCompilationCache(cache)
	}
	return webassembly.Init(webassembly.Config{
		MaxTotal:      opt.Jobs + abandoned,
		MaxIdle:       0,
		FSConfig:      wazero.NewFSConfig(), // empty: the default would mount "/"
		RuntimeConfig: config,
		Stdout:        io.Discard,
		Stderr:        io.Discard,
	})
}

func openCache(dir string) (wazero.CompilationCache, string) {
	if dir == "" {
		base, err := os.UserCacheDir()
		if err != nil {
			return nil, fmt.Sprintf("no cache folder for the PDF engine (%v): it is compiled anew each time", err)
		}
		dir = filepath.Join(base, "probity", "pdf-engine")
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Sprintf("the cache folder of the PDF engine cannot be made (%v): it is compiled anew each time", err)
	}
	probe, err := os.CreateTemp(dir, "probe-*")
	if err != nil {
		return nil, fmt.Sprintf("the cache folder of the PDF engine cannot be written (%v): it is compiled anew each time", err)
	}
	probe.Close()
	os.Remove(probe.Name())
	cache, err := wazero.NewCompilationCacheWithDir(dir)
	if err != nil {
		return nil, fmt.Sprintf("the cache folder of the PDF engine cannot be used (%v): it is compiled anew each time", err)
	}
	return cache, ""
}

// Errors a caller tells apart. Everything else is damage.
var (
	ErrPassword = errors.New("the file is locked with a password")
	ErrFormat   = errors.New("the file is not a PDF, or its structure is damaged")
	ErrTime     = errors.New("the time allowed for the file is over")
)

// instance borrows a worker; done must be called exactly once.
func (e *Engine) instance(ctx context.Context) (in *raw, done func(), err error) {
	inst, err := e.pool.GetInstanceWithContext(ctx)
	if err != nil {
		return nil, nil, err
	}
	// Killing, not closing: a document that ran into the time limit cannot be
	// closed in order, and the worker's memory goes away either way.
	done = func() {
		defer func() { _ = recover() }()
		_ = inst.Kill()
	}
	in, err = direct(ctx, inst)
	if err != nil {
		done()
		return nil, nil, err
	}
	return in, done, nil
}

// Limits bound the work for one document.
type Limits struct {
	Pages int           // pages read; 0: 2,000
	Time  time.Duration // 0: a minute

	// Draw asks for pictures: a page without text is drawn at DrawDPI dots an
	// inch and handed to Draw, whose page, if any, takes its place. It is
	// called from the goroutine that reads.
	Draw    func(page *glyph.Page, picture *image.Gray) *glyph.Page
	DrawDPI float64 // 0: 300
}

func (l Limits) fill() Limits {
	if l.Pages <= 0 {
		l.Pages = 2000
	}
	if l.Time <= 0 {
		l.Time = time.Minute
	}
	if l.DrawDPI <= 0 {
		l.DrawDPI = 300
	}
	return l
}
