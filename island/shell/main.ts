// The shared script of every page. Pages work without it.
import "./htmx";
import "htmx.org/dist/ext/hx-sse.js";
import { guard } from "./guard";
import { live } from "./live";
import { outbox } from "./outbox";

guard();
live();
outbox();
