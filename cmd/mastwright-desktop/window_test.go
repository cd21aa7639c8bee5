package main_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The whole way of a builder with the real program: start, change the height, see the verdicts change, undo, save, write the files, and
// quit with the question about unsaved work. Places are those of a window of 1280 by 800 at scale 1.
func TestRealWindow(t *testing.T) {
	if testing.Short() {
		t.Skip("the real window takes a while")
	}
	tools(t, "Xvfb", "xdotool", "import")
	program := built(t)
	r := start(t, program, display(t))
	if title := r.title(); title != "River survey - Mastwright" {
		t.Errorf("the title is %q", title)
	}
	r.keep("1-start")

	r.key("ctrl+2")
	before := r.settled()
	r.keep("2-shape")
	const heightX, heightY = 240, 228
	r.click(heightX, heightY)
	r.key("ctrl+a")
	r.write("160")
	r.key("Return")
	r.until("the title says that there is something to save", func() bool { return strings.HasPrefix(r.title(), "• ") })
	var after []byte
	r.until("the verdicts change", func() bool { after = r.settled(); return !bytes.Equal(after, before) })
	r.keep("3-height-changed")

	r.key("ctrl+z")
	r.until("the verdicts are what they were", func() bool { return bytes.Equal(r.seen(), before) })
	r.keep("4-undone")
	r.key("ctrl+y")
	r.until("the verdicts are changed again", func() bool { return bytes.Equal(r.seen(), after) })

	file := filepath.Join(r.home, "mine.yaml")
	r.key("ctrl+shift+s")
	time.Sleep(time.Second) // the question opens; nothing outside tells
	r.keep("5-save-as")
	r.key("ctrl+a")
	r.write(file)
	r.key("Return")
	r.until("the design is saved", func() bool { return holds(file, "height: 160 mm") == nil })
	r.until("the title says so", func() bool { return r.title() == "River survey - Mastwright" })

	r.key("ctrl+e")
	r.until("the files are written", func() bool {
		return holds(filepath.Join(r.home, "river-survey", "results.json"), `"mast_mm.stl"`) == nil
	})
	time.Sleep(time.Second)
	r.keep("6-written")
	r.key("ctrl+2")
	r.settled()

	r.click(heightX, heightY)
	r.key("ctrl+a")
	r.write("120")
	r.key("Return")
	r.until("there is something to save", func() bool { return strings.HasPrefix(r.title(), "• ") })
	r.key("ctrl+q")
	time.Sleep(time.Second)
	r.keep("7-unsaved")
	r.key("Escape")
	time.Sleep(time.Second)
	select {
	case <-r.ended:
		t.Fatal("Escape at the question ended the program")
	default:
	}
	r.key("ctrl+q")
	time.Sleep(time.Second)
	r.key("Return") // Save has the keyboard
	if status := r.exit(); status != 0 {
		t.Errorf("exit status %d\n%s", status, &r.said)
	}
	if err := holds(file, "height: 120 mm"); err != nil {
		t.Error(err)
	}
}

// One sentence and exit status 2, where there is no display and where there is one without OpenGL.
func TestNoWindow(t *testing.T) {
	if testing.Short() {
		t.Skip("an X server without OpenGL is waited for")
	}
	program := built(t)
	t.Run("no display", func(t *testing.T) { refuses(t, program, "") })
	t.Run("no OpenGL", func(t *testing.T) {
		tools(t, "Xvfb")
		refuses(t, program, display(t, "-extension", "GLX"))
	})
}

func refuses(t *testing.T, program, display string) {
	t.Helper()
	command := exec.Command(program)
	for _, each := range os.Environ() {
		if !strings.HasPrefix(each, "DISPLAY=") && !strings.HasPrefix(each, "WAYLAND_DISPLAY=") {
			command.Env = append(command.Env, each)
		}
	}
	command.Env = append(command.Env, "HOME="+t.TempDir(), "LC_ALL=C")
	if display != "" {
		command.Env = append(command.Env, "DISPLAY="+display)
	}
	var said bytes.Buffer
	command.Stderr = &said
	command.Run() // the status says it
	if status := command.ProcessState.ExitCode(); status != 2 {
		t.Errorf("exit status %d, want 2", status)
	}
	lines := strings.Split(strings.TrimSpace(said.String()), "\n")
	if len(lines) != 1 || !strings.Contains(lines[0], "mastwright check") {
		t.Errorf("said:\n%s\nwant one sentence that points to the command", &said)
	}
}

// From the start of the program to its window with a picture in it, on a display without a graphics card.
func BenchmarkStart(b *testing.B) {
	for _, tool := range []string{"Xvfb", "xdotool"} {
		if _, err := exec.LookPath(tool); err != nil {
			b.Skip(tool + " is not installed")
		}
	}
	program, screen := built(b), display(b)
	for b.Loop() {
		command := exec.Command(program)
		command.Env = append(os.Environ(), "DISPLAY="+screen, "HOME="+b.TempDir(), "LIBGL_ALWAYS_SOFTWARE=1", "LC_ALL=C")
		if err := command.Start(); err != nil {
			b.Fatal(err)
		}
		for {
			find := exec.Command("xdotool", "search", "--onlyvisible", "--name", "Mastwright")
			find.Env = append(os.Environ(), "DISPLAY="+screen)
			if out, _ := find.Output(); len(out) > 0 {
				break
			}
		}
		b.StopTimer()
		command.Process.Kill()
		command.Wait()
		b.StartTimer()
	}
}
