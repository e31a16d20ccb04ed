//go:build js && wasm

// Command wasm puts the engine into a web worker: it registers one object,
// bootfloorEngine, with the engine's version and the function call.
//
//	bootfloorEngine.call(name, requestJSON, onProgress)
//
// returns {reply: string of JSON, floats: Float64Array} or {error: {kind, say}},
// and for a long call a Promise of the same, never rejected. onProgress is
// null or a function of (done, of, say, soFarJSON) that returns false to
// cancel. Everything the engine knows lives in package bridge.
package main

import (
	"context"
	"errors"
	"fmt"
	"syscall/js"
	"time"
	"unsafe"

	"bootfloor/internal/bridge"

	"github.com/hack-pad/safejs"
)

// version is stamped by the build; page and engine refuse to work together
// when theirs differ.
var version = "dev"

func main() {
	h := &host{engine: bridge.New(version)}
	object := js.Global().Get("Object").New()
	object.Set("version", version)
	object.Set("call", js.FuncOf(h.call))
	js.Global().Set("bootfloorEngine", object)
	select {}
}

type host struct {
	engine *bridge.Engine
}

// call is the one export.
func (h *host) call(_ js.Value, args []js.Value) (result any) {
	defer func() {
		if p := recover(); p != nil {
			result = h.recovered(p)
		}
	}()
	name, request, onProgress, err := read(args)
	if err != nil {
		return failure(bridge.BadRequest, err.Error())
	}
	if bridge.Long(name) {
		return h.promise(name, request, onProgress)
	}
	return h.run(context.Background(), name, request, nil)
}

// run makes the call and turns what comes back into an object of the host.
func (h *host) run(ctx context.Context, name, request string, progress func(bridge.Progress)) (result any) {
	defer func() {
		if p := recover(); p != nil {
			result = h.recovered(p)
		}
	}()
	reply, err := h.engine.Call(ctx, name, []byte(request), progress)
	if err != nil {
		var e *bridge.Error
		if errors.As(err, &e) {
			return failure(e.Kind, e.Say)
		}
		return failure(bridge.Internal, err.Error())
	}
	object := js.Global().Get("Object").New()
	object.Set("reply", string(reply.JSON))
	object.Set("floats", floats(reply.Floats))
	return object
}

// recovered answers a panic. What the engine had kept may be half written, so
// a fresh one takes its place.
func (h *host) recovered(p any) any {
	h.engine = bridge.New(version)
	return failure(bridge.Internal, fmt.Sprintf("The engine met a fault of its own (%v). Your job is unharmed.", p))
}

// promise runs a long call in a goroutine, because a callback that blocks
// would stop the host's event loop for good.
func (h *host) promise(name, request string, onProgress safejs.Value) any {
	var executor js.Func
	executor = js.FuncOf(func(_ js.Value, args []js.Value) any {
		resolve := args[0]
		go func() {
			defer executor.Release()
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			resolve.Invoke(h.run(ctx, name, request, reporter(onProgress, cancel)))
		}()
		return nil
	})
	return js.Global().Get("Promise").New(executor)
}

// breath is how long a long call works between two looks at the host. Then it
// sleeps, because only a sleep lets the host's messages in: Gosched does not.
const (
	breath = 16 * time.Millisecond
	sleep  = time.Millisecond
)

// reporter passes progress on, at most once a breath, but never drops a
// partial answer.
func reporter(onProgress safejs.Value, cancel context.CancelFunc) func(bridge.Progress) {
	last := time.Now()
	return func(p bridge.Progress) {
		due := time.Since(last) >= breath
		if !due && p.SoFar == nil {
			return
		}
		if onProgress.Type() == safejs.TypeFunction {
			var soFar any
			if p.SoFar != nil {
				soFar = string(p.SoFar)
			}
			// A progress handler that throws must not end the call.
			goOn, err := onProgress.Invoke(p.Done, p.Of, p.Say, soFar)
			if err == nil && goOn.Type() == safejs.TypeBoolean {
				if more, err := goOn.Bool(); err == nil && !more {
					cancel()
				}
			}
		}
		if due {
			time.Sleep(sleep)
			last = time.Now()
		}
	}
}

// read takes the arguments of call apart.
func read(args []js.Value) (name, request string, onProgress safejs.Value, err error) {
	onProgress = safejs.Null()
	if len(args) < 2 {
		return "", "", onProgress, errors.New("A call needs a name and a request.")
	}
	if name, err = safejs.Safe(args[0]).String(); err != nil {
		return "", "", onProgress, errors.New("The name of a call must be text.")
	}
	if request, err = safejs.Safe(args[1]).String(); err != nil {
		return "", "", onProgress, errors.New("The request of a call must be text that holds JSON.")
	}
	if len(args) > 2 {
		onProgress = safejs.Safe(args[2])
	}
	return name, request, onProgress, nil
}

// floats copies numbers out in one piece into an array of the host's own,
// which the worker can give away. Both sides store numbers little-endian.
func floats(f []float64) js.Value {
	array := js.Global().Get("Float64Array").New(len(f))
	if len(f) > 0 {
		bytes := unsafe.Slice((*byte)(unsafe.Pointer(&f[0])), len(f)*8)
		js.CopyBytesToJS(js.Global().Get("Uint8Array").New(array.Get("buffer")), bytes)
	}
	return array
}

func failure(kind, say string) any {
	return map[string]any{"error": map[string]any{"kind": kind, "say": say}}
}
