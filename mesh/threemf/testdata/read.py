"""Reads the 3MF package that is named with the 3MF Consortium's own library (Debian: lib3mf1), in its strict mode, and prints what it sees as JSON."""
import ctypes, json, sys

lib = ctypes.CDLL("lib3MF.so.1")


def call(name, *arguments):
    if (code := getattr(lib, "lib3mf_" + name)(*arguments)) != 0:
        raise SystemExit(f"{name}: error {code:#x}")


def pointer(name, *arguments):
    out = ctypes.c_void_p()
    call(name, *arguments, ctypes.byref(out))
    return out


def number(name, *arguments):
    out = ctypes.c_uint32()
    call(name, *arguments, ctypes.byref(out))
    return out.value


def text(name, *arguments):
    buffer, needed = ctypes.create_string_buffer(1000), ctypes.c_uint32()
    call(name, *arguments, buffer, 1000, ctypes.byref(needed))
    return buffer.value.decode()


def rows(iterator, kind):
    while number(kind + "_movenext", iterator):
        yield pointer(kind + "_getcurrent", iterator)


model = pointer("createmodel")
reader = pointer("model_queryreader", model, b"3mf")
call("reader_setstrictmodeactive", reader, 1)
call("reader_readfromfileutf8", reader, sys.argv[1].encode())
items = []
for item in rows(pointer("model_getbuilditems", model), "builditemiterator"):
    thing = pointer("builditem_getobjectresource", item)
    transform = (ctypes.c_float * 12)()
    call("builditem_getobjecttransform", item, transform)
    items.append({
        "Name": text("object_getnameutf8", thing),
        "Number": text("object_getpartnumberutf8", thing),
        "Solid": bool(number("meshobject_ismanifoldandoriented", thing)),
        "Vertices": number("meshobject_getvertexcount", thing),
        "Triangles": number("meshobject_gettrianglecount", thing),
        "Transform": list(transform),
    })
print(json.dumps({"Warnings": number("reader_getwarningcount", reader), "Unit": number("model_getunit", model), "Items": items}))
