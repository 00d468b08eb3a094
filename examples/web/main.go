// Web is a page that works out folios: in a browser, on the library compiled to
// WebAssembly, with no server behind it but the one that hands out its files.
//
//	go run ./examples/web              # serves it on this machine and prints where
//	go run ./examples/web -build DIR   # writes its files, for any static host
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/signal"
	"strconv"
	"syscall"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := run(ctx, os.Args[1:], os.Stdout); err != nil && !errors.Is(err, flag.ErrHelp) {
		fmt.Fprintln(os.Stderr, "web:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, args []string, out io.Writer) error {
	set := flag.NewFlagSet("web", flag.ContinueOnError)
	set.SetOutput(out)
	dir := set.String("build", "", "write the files of the page to this directory, and serve nothing")
	port := set.Int("port", 8327, "the port on this machine; another one where it is taken")
	if err := set.Parse(args); err != nil {
		return err
	}
	if set.NArg() > 0 {
		return fmt.Errorf("%q is left over", set.Arg(0))
	}
	all, err := build(ctx)
	if err != nil {
		return err
	}
	if *dir != "" {
		if err := all.write(*dir); err != nil {
			return err
		}
		_, err := fmt.Fprintf(out, "%d files in %s; serve them from any host, beneath any path\n", len(all), *dir)
		return err
	}
	return serve(ctx, all, *port, out)
}

// serve hands out the files on the loopback interface until the context is done.
func serve(ctx context.Context, all files, port int, out io.Writer) error {
	listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if err != nil {
		if listener, err = net.Listen("tcp", "127.0.0.1:0"); err != nil {
			return err
		}
	}
	server := &http.Server{Handler: all, ReadHeaderTimeout: 5 * time.Second, IdleTimeout: time.Minute}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	if _, err := fmt.Fprintf(out, "http://%s/\nInterrupt stops it.\n", listener.Addr()); err != nil {
		return errors.Join(err, server.Close())
	}
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
	defer cancel()
	if err := server.Shutdown(last); err != nil {
		return server.Close()
	}
	return nil
}
