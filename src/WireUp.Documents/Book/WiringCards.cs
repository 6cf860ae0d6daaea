using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>A card for each contact that feeds a frog: its terminals, the wire at each, where that goes, and in which position the contact joins it.</summary>
internal static class WiringCards
{
    private const double Gutter = 6, RowHeight = 8.4, HeadHeight = 10, LeastSize = 1.7;

    public static void Write(BookFacts facts, ImmutableArray<MovingContact> contacts, BookFlow flow)
    {
        MovingContact[] wired = [.. contacts.Where(contact => contact.IsWired)];
        if (wired.Length == 0) return;
        flow.Ensure(Height(wired) + 40);
        flow.Subheading("Wiring cards");
        flow.Intro("One card a contact, drawn from the side of its terminals. The arm is the common terminal; it never rests on two terminals at once.");
        ILookup<string, ScheduledWire> wires = facts.Schedule.Wires.Where(wire => wire.Kind == WireKind.Frog).ToLookup(wire => wire.From);
        foreach (MovingContact[] pair in wired.Chunk(2))
        {
            flow.Draw(Height(pair), (page, box) =>
            {
                double width = (box.Width - Gutter) / 2;
                foreach ((int column, MovingContact contact) in pair.Index()) Draw(page, new(box.Left + (column * (width + Gutter)), box.Top, box.Left + (column * (width + Gutter)) + width, box.Bottom - 4), contact, wires);
            });
        }
    }

    private static double Height(MovingContact[] contacts) => HeadHeight + (contacts.Max(contact => contact.Throws.Length) * RowHeight) + 5;

    private static void Draw(BookPage page, SceneBox box, MovingContact contact, ILookup<string, ScheduledWire> wires)
    {
        page.Box(box, ShapeStyle.Outline(SceneColours.Ink, 0.25));
        Text(page, new(box.Left + 2, box.Top + 4), contact.Name, box.Width - 4, bold: true);
        Text(page, new(box.Left + 2, box.Top + 7.4), $"{ContactChapter.Words(contact.By)}, moved by {contact.MovedBy}", box.Width - 4);
        ScheduledWire[] own = [.. wires.Where(group => group.Key.StartsWith($"{contact.Owner} ", StringComparison.Ordinal)).SelectMany(group => group).Where(wire => IsOf(wire, contact))];
        double top = box.Top + HeadHeight + (RowHeight / 2), pivot = box.Left + (0.36 * box.Width), terminals = box.Left + (0.5 * box.Width);
        double middle = top + ((contact.Throws.Length - 1) * RowHeight / 2);
        Line(page, new(box.Left + 2, middle), new(pivot, middle), 0.35);
        Terminal(page, new(pivot, middle));
        ScheduledWire? common = own.FirstOrDefault(wire => wire.Leg == "F" && wire.To == contact.Name);
        Text(page, new(box.Left + 2, middle - 1), common is null ? contact.Name : $"{common.Id} {common.Colour}", pivot - box.Left - 4, bold: true);
        Text(page, new(box.Left + 2, middle + 3), $"common, to {contact.Name}", pivot - box.Left - 4);
        foreach ((int index, ContactThrow side) in contact.Throws.Index())
        {
            double y = top + (index * RowHeight);
            if (index == 0) Line(page, new(pivot, middle), new(terminals - 0.7, y), 0.5);
            Terminal(page, new(terminals, y));
            Line(page, new(terminals, y), new(box.Right - 2, y), 0.35);
            ScheduledWire? wire = own.FirstOrDefault(one => one.From.EndsWith($", {side.Name}", StringComparison.Ordinal));
            double room = box.Right - terminals - 4;
            Text(page, new(terminals + 2, y - 1), wire is null ? side.Name : $"{side.Name}: {wire.Id} {wire.Colour}", room, bold: true);
            Text(page, new(terminals + 2, y + 3), $"to {side.Joins} in {PositionWords.List(side.Positions)}", room);
        }
    }

    /// <summary>Wires of a piece with several contacts say at their beginning which contact they are of.</summary>
    private static bool IsOf(ScheduledWire wire, MovingContact contact) =>
        !wire.From.Contains(" of ", StringComparison.Ordinal) || wire.From.Contains($" of {contact.Conductor},", StringComparison.Ordinal);

    private static void Terminal(BookPage page, ScenePoint at) =>
        page.Add(new Shape.Circle("cards", at, 0.8, ShapeStyle.Outline(SceneColours.Ink, 0.3) with { Fill = SceneColours.Paper }));

    private static void Line(BookPage page, ScenePoint from, ScenePoint to, double width) =>
        page.Add(new Shape.Line("cards", [from, to], false, ShapeStyle.Outline(SceneColours.Ink, width)));

    private static void Text(BookPage page, ScenePoint at, string words, double width, bool bold = false)
    {
        TextStyle style = TextFlow.Fitting(words, new(2.3, SceneColours.Ink) { Bold = bold }, width, LeastSize);
        page.Write(TextFlow.Width(words, style) <= width ? words : TextFlow.Shorten(words, width, style), at.X, at.Y, style);
    }
}
