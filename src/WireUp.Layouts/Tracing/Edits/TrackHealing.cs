using System.Collections.Immutable;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Quantities;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>What becomes of the track around a piece that is taken out.</summary>
internal static class TrackHealing
{
    /// <summary>The change that takes a piece out, and of a turnout with one open end closes the track.</summary>
    public static TrackChange Of(LayoutDocument document, Layout layout, Piece piece)
    {
        TrackChange change = new() { Removed = [piece.Id] };
        LayoutIndex index = new(layout);
        TrackEnd[] around = [.. piece.Ends.Select(index.Opposite).OfType<TrackEnd>()];
        if (piece is not Piece.Turnout || around.Length != 2 || around[0].Piece == around[1].Piece
            || !around.All(end => index.Piece(end.Piece) is Piece.Section { Path.Length: > 1 }))
        {
            return change;
        }

        // The section that is joined by its end b grows, since places are counted from its end a.
        TrackEnd[] ends = [.. around.OrderByDescending(end => end.Name)];
        Piece.Section grows = (Piece.Section)index.Piece(ends[0].Piece);
        PlanPoint to = End((Piece.Section)index.Piece(ends[1].Piece), ends[1].Name);
        ImmutableArray<PlanPoint> path = TrackPaths.Of(grows);
        double more = Polyline.Distance(End(grows, ends[0].Name), to);
        if (more > 0)
        {
            change = Grown(change, grows, (ends[0].Name == "b" ? path.Add(to) : path.Insert(0, to), more, ends[0].Name == "a"), PlanText.Of(new(document.Text)));
        }

        return change with { Joined = [(ends[0], ends[1])] };
    }

    private static TrackChange Grown(TrackChange change, Piece.Section section, (ImmutableArray<PlanPoint> Path, double More, bool AtBeginning) now, PlanText plan)
    {
        double old = section.Length.Meters;
        return change with
        {
            Keys =
            [
                (section.Id, "path", plan.Path(now.Path)),
                .. section.LengthFromPath ? ImmutableArray<(PieceId, string, string?)>.Empty : [(section.Id, "length", LengthText.Write(Math.Round(old + now.More, 5)))],
            ],
            Stretches = change.Stretches.Add(section.Id, [new(section.Id, 0, old, old) { Begins = now.AtBeginning ? now.More : 0, GoesOn = !now.AtBeginning }]),
        };
    }

    private static PlanPoint End(Piece.Section section, string name) => name == "a" ? section.Path[0] : section.Path[^1];
}
