// Package sprayout tells what the cards of a build say of its paints: the film
// of a solid paint by the equations of Kubelka and Munk over any undercoat, coat
// by coat and with its error; flakes as they were read and no more; and what
// nobody has sprayed as not known. The stages of look and paint share it, so
// that a page and a check never count coats in two ways.
package sprayout
