package desk

import (
	"fmt"

	"fettle/internal/web"
)

// TakePhoto puts the photo of a form's field into the vault at once, so that it
// is safe even where something else in the form is wrong. It returns its hash,
// or nothing where none was sent or it was not kept, which the form then says.
func (d Desk) TakePhoto(r *web.Request, f *web.Form, name string, most int64) string {
	file, head := f.File(name)
	if file == nil {
		return ""
	}
	defer file.Close()
	if d.Vault == nil {
		f.Fail(name, "cannot be kept: this server keeps no photos")
		return ""
	}
	kept, err := d.Vault.Put(r.Context(), file, most)
	if err != nil {
		f.Fail(name, fmt.Sprintf("%s was not kept: %s", head.Filename, err))
		return ""
	}
	return kept.Hash
}
