package gltf

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"fettle/fault"
)

const (
	magic     = "glTF"
	chunkJSON = 0x4e4f534a
	chunkBin  = 0x004e4942
)

// Is reports whether data may be such a file.
func Is(data []byte) bool {
	if bytes.HasPrefix(data, []byte(magic)) {
		return true
	}
	start := bytes.TrimLeft(data[:min(len(data), 1<<16)], "\ufeff \t\r\n")
	return bytes.HasPrefix(start, []byte("{")) && bytes.Contains(data, []byte(`"asset"`))
}

// unpack returns the JSON of a file and the bytes of its binary chunk.
func unpack(data []byte) (text, bin []byte, err error) {
	if !bytes.HasPrefix(data, []byte(magic)) {
		return bytes.TrimPrefix(data, []byte("\ufeff")), nil, nil
	}
	if len(data) < 12 {
		return nil, nil, short(len(data))
	}
	if v := binary.LittleEndian.Uint32(data[4:]); v != 2 {
		return nil, nil, fault.New(fault.Invalid, "the file is of version %d: only 2 can be read", v).At("byte 4")
	}
	if n := int(binary.LittleEndian.Uint32(data[8:])); n > len(data) {
		return nil, nil, short(len(data))
	}
	for at := 12; at+8 <= len(data); {
		n, kind := int(binary.LittleEndian.Uint32(data[at:])), binary.LittleEndian.Uint32(data[at+4:])
		if at += 8; n > len(data)-at {
			return nil, nil, short(len(data))
		}
		chunk := data[at : at+n]
		switch {
		case kind == chunkJSON && text == nil:
			text = chunk
		case kind == chunkBin && bin == nil:
			bin = chunk
		}
		at += n
	}
	if text == nil {
		return nil, nil, fault.New(fault.Invalid, "the file has no JSON chunk").At("byte 12")
	}
	return text, bin, nil
}

func short(at int) error {
	return fault.New(fault.Invalid, "the file ends within itself").At(fmt.Sprintf("byte %d", at)).WithHint("Was it copied to its end?")
}

// parse reads the JSON.
func parse(text []byte) (document, error) {
	var d document
	if err := json.Unmarshal(text, &d); err != nil {
		where := "the JSON"
		if s, ok := errors.AsType[*json.SyntaxError](err); ok {
			where = fmt.Sprintf("byte %d of the JSON", s.Offset)
		} else if u, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
			where = fmt.Sprintf("byte %d of the JSON, %s", u.Offset, u.Field)
		}
		return d, (&fault.Fault{Kind: fault.Invalid, Msg: "the file makes no sense here", Cause: err}).At(where)
	}
	if major, _, _ := strings.Cut(d.Asset.Version, "."); major != "2" {
		return d, fault.New(fault.Invalid, "the file is of version %.20q: only 2 can be read", d.Asset.Version)
	}
	for _, e := range d.Required {
		if e != "KHR_mesh_quantization" && !strings.HasPrefix(e, "KHR_materials_") && e != "KHR_texture_transform" {
			return d, fault.New(fault.Invalid, "the file cannot be read without %.60q, which is not known here", e).
				WithHint("Save it without compression or other extensions.")
		}
	}
	return d, nil
}

// load returns the bytes of all buffers. limit is how many they may have.
func load(list []buffer, bin []byte, limit int) ([][]byte, error) {
	out := make([][]byte, len(list))
	for i, b := range list {
		where := fmt.Sprintf("buffer %d", i)
		var data []byte
		switch head, rest, found := strings.Cut(b.URI, ","); {
		case b.URI == "" && i == 0:
			data = bin
		case found && strings.HasPrefix(head, "data:") && strings.HasSuffix(head, ";base64"):
			var err error
			if data, err = base64.StdEncoding.DecodeString(rest); err != nil {
				return nil, fault.New(fault.Invalid, "its text is not base64").At(where)
			}
		default:
			return nil, fault.New(fault.Invalid, "its bytes lie in another file, %.60q", b.URI).At(where).
				WithHint("Save as one binary file (.glb).")
		}
		if b.ByteLength < 0 || len(data) < b.ByteLength {
			return nil, fault.New(fault.Invalid, "it has %d bytes and should have %d", len(data), b.ByteLength).At(where)
		}
		if limit -= len(data); limit < 0 {
			return nil, fault.New(fault.TooLarge, "the buffers are too large").At(where)
		}
		out[i] = data[:b.ByteLength]
	}
	return out, nil
}
