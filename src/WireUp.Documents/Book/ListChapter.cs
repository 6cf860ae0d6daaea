using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>What to cut and what to buy.</summary>
internal static class ListChapter
{
    public const string CutTitle = "Cut list";
    public const string ShoppingTitle = "Shopping list";

    public static void Write(BookFacts facts, BookFlow flow)
    {
        WriteShopping(facts, flow);
        WriteCuts(facts, flow);
    }

    private static void WriteShopping(BookFacts facts, BookFlow flow)
    {
        ImmutableArray<ShoppingItem> items = [.. ShoppingList.Of(facts.Layout, facts.Plan.Before, facts.Schedule).Items, .. BoardConnectors.Of(facts)];
        flow.SectionHere(ShoppingTitle, items.IsEmpty ? 25 : 120);
        if (items.IsEmpty)
        {
            flow.Paragraph("There is nothing to buy.");
            return;
        }

        flow.Intro("By rating and size, never by make. Only what is not built yet.");
        flow.Table(Table.Of(
            [Column.TickBoxes("have"), Column.Wide("Item", 5), Column.Figures("Quantity"), new("Unit"), Column.Wide("For", 4)],
            items.Select(item => new Row(string.Empty, item.Item, Figure.Whole(item.Quantity), item.Unit, item.Note))));
    }

    private static void WriteCuts(BookFacts facts, BookFlow flow)
    {
        ImmutableArray<CutGroup> groups = CutList.Of(facts.Schedule, facts.Coil).Groups;
        flow.SectionHere(CutTitle, groups.IsEmpty ? 25 : 60);
        flow.Paragraph(groups.IsEmpty
            ? "There is nothing to cut."
            : Figure.Text($"Cut the longest pieces first, coil after coil, from coils of {CoilWords(facts)}, and label both ends of each piece before you lay it down."));
        foreach (CutGroup group in groups) WriteGroup(group, facts, flow);
        WriteFoil(FoilCuts.Of(facts.Layout), flow);
    }

    private static string CoilWords(BookFacts facts) => facts.Lengths == LengthStyle.Feet ? facts.Lengths.Say(facts.Coil.Meters) : Figure.Text($"{facts.Coil.Meters:0.#} m");

    private static void WriteFoil(ImmutableArray<FoilCut> cuts, BookFlow flow)
    {
        if (cuts.IsEmpty) return;
        flow.Subheading("Foil cuts of copper-clad ties");
        flow.Intro("File or saw through the foil of every tie named, then test with a meter before you paint: one uncut tie is a short.");
        flow.Table(Table.Of(
            [
                Column.Names("Turnout"), Column.Wide("Ties", 2), Column.Wide("The cut keeps apart", 3), new("So far"), Column.TickBoxes("cut"), Column.TickBoxes("open"),
            ],
            cuts.Select((cut, i) => new Row(
                i == 0 || cuts[i - 1].Turnout != cut.Turnout ? cut.Turnout.Name : string.Empty,
                cut.Where,
                cut.Between,
                cut.IsCut ? "cut" : "not cut yet",
                cut.IsCut ? Row.NoBox : string.Empty,
                string.Empty))));
    }

    private static void WriteGroup(CutGroup group, BookFacts facts, BookFlow flow)
    {
        LengthStyle lengths = facts.Lengths;
        int pieces = group.Pieces.Count();
        flow.Subheading(
            $"{PlaceWords.Size(group.Wire)} {facts.Layout.Papers.WithColour(group.Colour)}: "
            + $"{PlaceWords.Parts(lengths, group.Total.Meters, 2, Figure.Count(pieces, "piece", "pieces"))} from {Figure.Count(group.Coils.Length, "coil", "coils")}");
        flow.Paragraph(Packing(group, lengths));
        flow.Table(Table.Of(
            [Column.Figures("Coil"), Column.Figures("Pieces"), Column.Figures(lengths.Head("Cut")), Column.Wide("Wires"), Column.Figures("Left on coil"), Column.TickBoxes("cut")],
            group.Coils.SelectMany((coil, i) => CoilRows(coil, i + 1, lengths))));
    }

    private static string Packing(CutGroup group, LengthStyle lengths)
    {
        string fewer = group.Coils.Length == group.AtLeast ? "no packing takes fewer" : Figure.Text($"fewer than {group.AtLeast} cannot do");
        return $"{Figure.Count(group.Coils.Length, "coil", "coils")}: {fewer}. {lengths.Say(group.Left.Meters)} are left over.";
    }

    /// <summary>One row for each length; what is left on the coil stands in its last row.</summary>
    private static IEnumerable<Row> CoilRows(CutCoil coil, int number, LengthStyle lengths)
    {
        IGrouping<double, ScheduledWire>[] pieces = [.. coil.Pieces.GroupBy(piece => piece.CutLength.Millimeters)];
        foreach ((int index, IGrouping<double, ScheduledWire> alike) in pieces.Index())
        {
            yield return new(
                index == 0 ? Figure.Whole(number) : string.Empty,
                Figure.Whole(alike.Count()),
                lengths.Bare(alike.First().CutLength.Meters),
                string.Join(", ", alike.Select(piece => piece.Id)),
                index == pieces.Length - 1 ? lengths.Say(coil.Left.Meters) : string.Empty,
                string.Empty);
        }
    }
}
