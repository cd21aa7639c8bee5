package main_test

import (
	"bufio"
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// patience is how long a robot waits for the program: of a crowded machine that draws without a graphics card.
const patience = 60 * time.Second

// robot works the real program on a display of its own, with a real pointer and a real keyboard.
type robot struct {
	t       *testing.T
	display string
	program *exec.Cmd
	ended   chan error
	said    bytes.Buffer
	window  string
	home    string
}

// tools skips the test where something it works with is not installed.
func tools(t *testing.T, names ...string) {
	t.Helper()
	for _, name := range names {
		if _, err := exec.LookPath(name); err != nil {
			t.Skipf("%s is not installed: the real window is not tested here", name)
		}
	}
}

// built builds the program.
func built(t testing.TB) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "mastwright-desktop")
	command := exec.Command("go", "build", "-tags", "migrated_fynedo", "-o", program, ".")
	if out, err := command.CombinedOutput(); err != nil {
		t.Skipf("the program cannot be built here (the toolkit wants X11 and OpenGL headers):\n%s", out)
	}
	return program
}

// display starts an X server that ends with the test and returns its name.
func display(t testing.TB, options ...string) string {
	t.Helper()
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	server := exec.Command("Xvfb", append([]string{"-displayfd", "3", "-screen", "0", "1300x820x24", "-nolisten", "tcp"}, options...)...)
	server.ExtraFiles = []*os.File{write}
	if err := server.Start(); err != nil {
		t.Skipf("no X server: %v", err)
	}
	write.Close()
	t.Cleanup(func() { server.Process.Kill(); server.Wait(); read.Close() })
	number, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		t.Skipf("the X server does not say its number: %v", err)
	}
	return ":" + strings.TrimSpace(number)
}

// start starts the program with a home of its own and waits for its window.
func start(t *testing.T, program, display string, arguments ...string) *robot {
	t.Helper()
	r := &robot{t: t, display: display, home: t.TempDir(), ended: make(chan error, 1)}
	r.program = exec.Command(program, arguments...)
	r.program.Env = append(os.Environ(), "DISPLAY="+display, "HOME="+r.home, "XDG_CONFIG_HOME="+filepath.Join(r.home, "config"),
		"MASTWRIGHT_STATE="+filepath.Join(r.home, "state"), "LIBGL_ALWAYS_SOFTWARE=1", "FYNE_SCALE=1", "FYNE_THEME=light", "LC_ALL=C")
	r.program.Stderr = &r.said
	if err := r.program.Start(); err != nil {
		t.Fatal(err)
	}
	go func() { r.ended <- r.program.Wait() }()
	t.Cleanup(func() { r.program.Process.Kill() })
	r.until("there is a window", func() bool {
		out, _ := r.run("xdotool", "search", "--onlyvisible", "--name", "Mastwright")
		r.window, _, _ = strings.Cut(strings.TrimSpace(out), "\n")
		return r.window != ""
	})
	r.must("xdotool", "windowmove", r.window, "0", "0", "windowsize", r.window, "1280", "800")
	r.move(600, 300)
	r.settled()
	return r
}

func (r *robot) run(name string, arguments ...string) (string, error) {
	command := exec.Command(name, arguments...)
	command.Env = append(os.Environ(), "DISPLAY="+r.display)
	out, err := command.Output()
	return string(out), err
}

func (r *robot) must(name string, arguments ...string) string {
	r.t.Helper()
	out, err := r.run(name, arguments...)
	if err != nil {
		r.t.Fatalf("%s %v: %v", name, arguments, err)
	}
	return out
}

func (r *robot) until(what string, holds func() bool) {
	r.t.Helper()
	for limit := time.Now().Add(patience); !holds(); time.Sleep(100 * time.Millisecond) {
		select {
		case err := <-r.ended:
			r.ended <- err
			r.t.Fatalf("the program ended before %s: %v\n%s", what, err, &r.said)
		default:
		}
		if time.Now().After(limit) {
			r.keep("in-vain")
			r.t.Fatalf("waited in vain until %s\n%s", what, &r.said)
		}
	}
}

func (r *robot) key(keys ...string) {
	r.t.Helper()
	r.must("xdotool", append([]string{"key", "--delay", "40"}, keys...)...)
}

func (r *robot) write(text string) {
	r.t.Helper()
	r.must("xdotool", "type", "--delay", "25", text)
}

func (r *robot) move(x, y int) {
	r.t.Helper()
	r.must("xdotool", "mousemove", strconv.Itoa(x), strconv.Itoa(y))
}

func (r *robot) click(x, y int) {
	r.t.Helper()
	r.move(x, y)
	r.must("xdotool", "click", "1")
}

func (r *robot) title() string {
	out, _ := r.run("xdotool", "getwindowname", r.window)
	return strings.TrimSpace(out)
}

// seen is what the screen shows in the right column, where nothing blinks.
func (r *robot) seen() []byte {
	r.t.Helper()
	img := r.picture()
	crop := img.(interface {
		SubImage(image.Rectangle) image.Image
	}).SubImage(image.Rect(880, 80, 1280, 770))
	var pixels bytes.Buffer
	for y := crop.Bounds().Min.Y; y < crop.Bounds().Max.Y; y++ {
		for x := crop.Bounds().Min.X; x < crop.Bounds().Max.X; x++ {
			red, green, blue, _ := crop.At(x, y).RGBA()
			pixels.Write([]byte{byte(red >> 8), byte(green >> 8), byte(blue >> 8)})
		}
	}
	return pixels.Bytes()
}

// settled waits until the right column stands still and returns it.
func (r *robot) settled() []byte {
	r.t.Helper()
	var last []byte
	still := 0
	r.until("the right column stands still", func() bool {
		now := r.seen()
		if bytes.Equal(now, last) {
			still++
		} else {
			still = 0
		}
		last = now
		return still >= 8
	})
	return last
}

func (r *robot) picture() image.Image {
	r.t.Helper()
	data := r.must("import", "-window", r.window, "-depth", "8", "png:-")
	img, err := png.Decode(strings.NewReader(data))
	if err != nil {
		r.t.Fatal(err)
	}
	return img
}

// keep keeps what is seen as an artefact of the test.
func (r *robot) keep(name string) {
	r.t.Helper()
	file, err := os.Create(filepath.Join(r.t.ArtifactDir(), name+".png"))
	if err != nil {
		r.t.Fatal(err)
	}
	if err := png.Encode(file, r.picture()); err != nil {
		r.t.Error(err)
	}
	if err := file.Close(); err != nil {
		r.t.Error(err)
	}
}

// exit waits for the program's end and returns its status.
func (r *robot) exit() int {
	r.t.Helper()
	select {
	case <-r.ended:
		return r.program.ProcessState.ExitCode()
	case <-time.After(patience):
		r.t.Fatalf("the program does not end\n%s", &r.said)
	}
	return -1
}

// holds reports whether a file holds a text.
func holds(path, text string) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if !strings.Contains(string(data), text) {
		return fmt.Errorf("%s does not hold %q:\n%s", path, text, data)
	}
	return nil
}
