// The shared script of a page whose state lies on the tablet, such as a draft
// drawn by hand: safe hands and the outbox, without what fetches parts anew.
import { guard } from "../shell/guard";
import { outbox } from "../shell/outbox";

guard();
outbox();
