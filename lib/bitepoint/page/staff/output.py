"""How a staff notebook tells something: a sentence or a table as a card, the same in text and in HTML."""

from collections.abc import Sequence

from bitepoint.page import html, output


def tell(*sentences: str) -> None:
    """Show sentences."""
    output.show_static(output.Static("\n".join(sentences), html.card(html.paragraphs("\n\n".join(sentences)))))


def tell_table(caption: str, rows: Sequence[Sequence[str]], *, most: int = 40) -> None:
    """Show a table whose first row holds the headings; a long one says how many rows were left out."""
    head, body = list(rows[0]), [list(row) for row in rows[1:]]
    left = len(body) - most
    note = f"{left} more rows are in the file." if left > 0 else ""
    text = "\n".join([caption, *(" | ".join(row) for row in [head, *body[:most]]), *([note] if note else [])])
    output.show_static(
        output.Static(
            text, html.card(html.joined([html.table([head, *body[:most]], caption=caption), html.paragraphs(note)]))
        )
    )
