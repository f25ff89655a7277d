"""Takes what devices sent: every sending with an id gets a receipt, whatever it holds, and none blocks another."""

from collections.abc import Sequence
from concurrent.futures import Future

from server.facts.delivery import Receipt
from server.record.book_of_lines import Record
from server.record.reads import Reads
from server.record.written import Written
from server.work.receiving import Receiving, first_of
from server.work.sent_delivery import SentDelivery
from server.work.understanding import Understood, understand


def take_deliveries(record: Record, sendings: Sequence[SentDelivery]) -> "Future[tuple[Receipt, ...]]":
    """Take the sendings in their order; the future gives a receipt for each once all of them are kept for good."""
    read = [(sent, understand(sent)) for sent in sendings]
    return record.write(lambda reads: _take(reads, read))


def _take(reads: Reads, read: Sequence[tuple[SentDelivery, Understood]]) -> Written[tuple[Receipt, ...]]:
    receiving = receiving_for(reads, [understood for _, understood in read])
    for sent, understood in read:
        receiving.take(sent, understood)
    return Written(receiving.receipts, receiving.lines)


def receiving_for(reads: Reads, read: Sequence[Understood]) -> Receiving:
    """Ask, in a fixed number of questions, what is known of the entries that are about to be taken."""
    named = {each.line.of for each in read if each.line.of}
    known = reads.sendings(named | {each.line.id for each in read})
    mended = [first.position for name in named if (first := first_of(known.get(name, ())))]
    return Receiving(known, reads.subjects_of(mended) if mended else {}, reads.registers())
