package dxf

import (
	"fmt"

	"fettle/geom"
)

// Handles that other records point at, and the first that is free for layers
// and entities.
const (
	layerTable  = "2"
	ltypeTable  = "5"
	recordTable = "1"
	modelSpace  = "1F"
	paperSpace  = "1B"
	rootObject  = "C"
	firstHandle = 0x100
)

// head writes the variables that a reader needs.
func (w *writer) head(handles int, box geom.Box) {
	w.begin("HEADER")
	w.put(9, "$ACADVER")
	if w.v == R12 {
		w.put(1, "AC1009")
	} else {
		w.put(1, "AC1015")
		w.put(9, "$HANDSEED")
		w.put(5, fmt.Sprintf("%X", firstHandle+handles)) // beyond every layer, outline and label
		w.put(9, "$INSUNITS")
		w.int(70, 4)
	}
	w.put(9, "$EXTMIN")
	w.point(10, box.Min)
	w.put(30, "0")
	w.put(9, "$EXTMAX")
	w.point(10, box.Max)
	w.put(30, "0")
	w.put(0, "ENDSEC")
}

// tables writes line type and layers; R2000 wants the others too.
func (w *writer) tables(layers []string) {
	w.begin("TABLES")
	if w.v == R2000 {
		w.table("VPORT", "8", 0)
		w.put(0, "ENDTAB")
	}
	w.lineTypes()
	w.table("LAYER", layerTable, len(layers))
	for _, name := range layers {
		w.record("LAYER", "AcDbLayerTableRecord", w.next(), layerTable)
		w.name(2, name)
		w.int(70, 0)
		w.int(62, 7)
		w.put(6, "CONTINUOUS")
	}
	w.put(0, "ENDTAB")
	if w.v == R2000 {
		w.others()
	}
	w.put(0, "ENDSEC")
}

func (w *writer) table(name, handle string, records int) {
	w.put(0, "TABLE")
	w.put(2, name)
	if w.v == R2000 {
		w.put(5, handle)
		w.put(330, "0")
		w.put(100, "AcDbSymbolTable")
	}
	w.int(70, records)
}

func (w *writer) record(kind, class, handle, owner string) {
	w.put(0, kind)
	if w.v == R2000 {
		w.put(5, handle)
		w.put(330, owner)
		w.put(100, "AcDbSymbolTableRecord")
		w.put(100, class)
	}
}

func (w *writer) lineTypes() {
	names := []string{"CONTINUOUS"}
	if w.v == R2000 {
		names = []string{"BYBLOCK", "BYLAYER", "CONTINUOUS"}
	}
	w.table("LTYPE", ltypeTable, len(names))
	for i, name := range names {
		w.record("LTYPE", "AcDbLinetypeTableRecord", fmt.Sprintf("%X", 0x14+i), ltypeTable)
		w.put(2, name)
		w.int(70, 0)
		w.put(3, "")
		w.int(72, 65)
		w.int(73, 0)
		w.put(40, "0")
	}
	w.put(0, "ENDTAB")
}

// others writes the tables that R2000 wants though nothing here needs them.
func (w *writer) others() {
	w.table("STYLE", "3", 1)
	w.record("STYLE", "AcDbTextStyleTableRecord", "11", "3")
	w.put(2, "STANDARD")
	w.int(70, 0)
	w.put(40, "0")
	w.put(41, "1")
	w.put(50, "0")
	w.int(71, 0)
	w.put(42, "2.5")
	w.put(3, "txt")
	w.put(4, "")
	w.put(0, "ENDTAB")
	w.table("VIEW", "6", 0)
	w.put(0, "ENDTAB")
	w.table("UCS", "7", 0)
	w.put(0, "ENDTAB")
	w.table("APPID", "9", 1)
	w.record("APPID", "AcDbRegAppTableRecord", "12", "9")
	w.put(2, "ACAD")
	w.int(70, 0)
	w.put(0, "ENDTAB")
	w.table("DIMSTYLE", "A", 0)
	w.put(100, "AcDbDimStyleTable")
	w.put(0, "ENDTAB")
	w.table("BLOCK_RECORD", recordTable, 2)
	for _, b := range spaces {
		w.record("BLOCK_RECORD", "AcDbBlockTableRecord", b.handle, recordTable)
		w.put(2, b.name)
	}
	w.put(0, "ENDTAB")
}

// spaces are the two blocks that every R2000 drawing has.
var spaces = []struct{ name, handle, begin, end string }{
	{"*Model_Space", modelSpace, "20", "21"},
	{"*Paper_Space", paperSpace, "1C", "1D"},
}

func (w *writer) blocks() {
	w.begin("BLOCKS")
	for _, b := range spaces {
		w.put(0, "BLOCK")
		w.owned(b.begin, b.handle, "AcDbBlockBegin")
		w.put(2, b.name)
		w.int(70, 0)
		w.point(10, geom.Point{})
		w.put(30, "0")
		w.put(3, b.name)
		w.put(1, "")
		w.put(0, "ENDBLK")
		w.owned(b.end, b.handle, "AcDbBlockEnd")
	}
	w.put(0, "ENDSEC")
}

func (w *writer) owned(handle, owner, class string) {
	w.put(5, handle)
	w.put(330, owner)
	w.put(100, "AcDbEntity")
	w.put(8, "0")
	w.put(100, class)
}

// objects writes the root dictionary with an empty one of groups.
func (w *writer) objects() {
	w.begin("OBJECTS")
	w.put(0, "DICTIONARY")
	w.put(5, rootObject)
	w.put(330, "0")
	w.put(100, "AcDbDictionary")
	w.int(281, 1)
	w.put(3, "ACAD_GROUP")
	w.put(350, "D")
	w.put(0, "DICTIONARY")
	w.put(5, "D")
	w.put(330, rootObject)
	w.put(100, "AcDbDictionary")
	w.int(281, 1)
	w.put(0, "ENDSEC")
}
