package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// desktopTag is the toolkit's build tag for programs that keep to its threads.
const desktopTag = "migrated_fynedo"

// headers are what the toolkit's driver includes on Linux.
const headers = "#include <GL/gl.h>\n#include <X11/Xcursor/Xcursor.h>\n#include <X11/extensions/Xrandr.h>\n" +
	"#include <X11/extensions/Xinerama.h>\n#include <X11/extensions/XInput2.h>\n#include <X11/extensions/xf86vmode.h>\n"

// install is the line that brings compiler and headers, by the system's family as /etc/os-release names it.
var install = []struct{ family, line string }{
	{"debian", "apt-get install -y gcc libgl1-mesa-dev xorg-dev"},
	{"ubuntu", "apt-get install -y gcc libgl1-mesa-dev xorg-dev"},
	{"fedora", "dnf install -y gcc mesa-libGL-devel libXcursor-devel libXrandr-devel libXinerama-devel libXi-devel libXxf86vm-devel"},
	{"arch", "pacman -S --needed gcc mesa libxcursor libxrandr libxinerama libxi libxxf86vm"},
	{"suse", "zypper install -y gcc Mesa-libGL-devel libXcursor-devel libXrandr-devel libXinerama-devel libXi-devel libXxf86vm-devel"},
	{"alpine", "apk add gcc musl-dev mesa-dev libxcursor-dev libxrandr-dev libxinerama-dev libxi-dev libxxf86vm-dev"},
}

// openWindow builds the desktop from the sources around the working folder and opens it until it is closed. The reason says why
// there is no window; "" when there was one.
func (s *session) openWindow() (reason string, err error) {
	if !hasDisplay() {
		return "there is no display here", nil
	}
	top, err := sources(s)
	if err != nil {
		return err.Error(), nil
	}
	if lacking := s.lacksTools(top); lacking != "" {
		return lacking, nil
	}
	program, err := s.buildDesktop(top)
	if err != nil {
		return err.Error(), nil
	}
	window := exec.CommandContext(s, program)
	window.Stdout, window.Stderr = s.out, s.err
	window.Env = os.Environ()
	if os.Getenv("LANG") == "C.UTF-8" && os.Getenv("LC_ALL") == "" {
		window.Env = append(window.Env, "LC_ALL=C") // the toolkit knows no language of that name and says so at length
	}
	err = window.Run()
	var code *exec.ExitError
	if errors.As(err, &code) && code.ExitCode() == 2 {
		return "no window can be shown here", nil
	}
	return "", err
}

// hasDisplay says whether a window has somewhere to appear.
func hasDisplay() bool {
	return runtime.GOOS == "windows" || runtime.GOOS == "darwin" || os.Getenv("DISPLAY") != ""
}

// sources returns the top folder of the project's sources.
func sources(ctx context.Context) (string, error) {
	out, err := exec.CommandContext(ctx, "go", "list", "-m", "-f", "{{.Path}} {{.Dir}}").Output()
	name, dir, _ := strings.Cut(strings.TrimSpace(string(out)), " ")
	if err != nil || name != "mastwright" {
		return "", errors.New("the window is built from the sources, and they are not here; run this in their folder")
	}
	return dir, nil
}

// lacksTools says what the window cannot be built without, after it has tried to install it where it may; "" when nothing is lacking.
func (s *session) lacksTools(top string) string {
	lacking := lackingTools(s, top)
	if lacking == "" {
		return ""
	}
	line := installLine()
	if line == "" {
		return lacking + "; install a C compiler and the headers of X11 and OpenGL, then start again"
	}
	if os.Geteuid() != 0 {
		return fmt.Sprintf("%s; run this and start again: sudo %s", lacking, line)
	}
	fmt.Fprintf(s.err, "%s; installing: %s\n", lacking, line)
	words := strings.Fields(line)
	if said, err := exec.CommandContext(s, words[0], words[1:]...).CombinedOutput(); err != nil {
		return fmt.Sprintf("%s, and %q did not help: %s", lacking, line, lastLine(said))
	}
	return lackingTools(s, top)
}

// lackingTools says whether a C compiler, or on Linux a header, is missing.
func lackingTools(ctx context.Context, top string) string {
	query := exec.CommandContext(ctx, "go", "env", "CC")
	query.Dir = top
	out, err := query.Output()
	words := strings.Fields(string(out))
	if err != nil || len(words) == 0 {
		return "there is no C compiler"
	}
	if _, err := exec.LookPath(words[0]); err != nil {
		return "there is no C compiler"
	}
	if runtime.GOOS != "linux" {
		return ""
	}
	try := exec.CommandContext(ctx, words[0], append(words[1:], "-E", "-x", "c", "-o", os.DevNull, "-")...)
	try.Stdin = strings.NewReader(headers)
	if try.Run() != nil {
		return "the headers of X11 and OpenGL are missing"
	}
	return ""
}

// installLine returns the line for this system, "" for one that is not known.
func installLine() string {
	release, err := os.ReadFile("/etc/os-release")
	if err != nil {
		return ""
	}
	for line := range strings.Lines(string(release)) {
		key, value, _ := strings.Cut(strings.TrimSpace(line), "=")
		if key != "ID" && key != "ID_LIKE" {
			continue
		}
		for _, i := range install {
			if strings.Contains(value, i.family) {
				return i.line
			}
		}
	}
	return ""
}

// buildDesktop builds the window's program into the user's cache and says how long that takes.
func (s *session) buildDesktop(top string) (string, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		cache = os.TempDir()
	}
	program := filepath.Join(cache, "mastwright", "mastwright-desktop")
	if runtime.GOOS == "windows" {
		program += ".exe"
	}
	if err := os.MkdirAll(filepath.Dir(program), 0o755); err != nil {
		return "", fmt.Errorf("the window has no place to be built: %w", err)
	}
	began := time.Now()
	fmt.Fprintln(s.err, "building the window; the first time takes some minutes")
	build := exec.CommandContext(s, "go", "build", "-tags", desktopTag, "-o", program, "./cmd/mastwright-desktop")
	build.Dir = top
	var said bytes.Buffer
	build.Stdout, build.Stderr = io.Discard, &said
	if err := build.Start(); err != nil {
		return "", fmt.Errorf("the window cannot be built: %w", err)
	}
	done := make(chan error, 1)
	go func() { done <- build.Wait() }()
	tick := time.NewTicker(10 * time.Second)
	defer tick.Stop()
	for {
		select {
		case err := <-done:
			if err != nil {
				return "", fmt.Errorf("the window cannot be built: %s", lastLine(said.Bytes()))
			}
			fmt.Fprintf(s.err, "built in %.0f s\n", time.Since(began).Seconds())
			return program, nil
		case <-tick.C:
			fmt.Fprintf(s.err, "still building, %.0f s\n", time.Since(began).Seconds())
		}
	}
}

// lastLine returns the last line of what a program said that is not blank.
func lastLine(said []byte) string {
	lines := strings.Split(strings.TrimSpace(string(said)), "\n")
	return strings.TrimSpace(lines[len(lines)-1])
}
