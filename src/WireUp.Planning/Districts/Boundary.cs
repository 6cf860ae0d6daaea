using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Districts;

/// <summary>A place of a run where two districts could meet.</summary>
/// <param name="AlongMetres">Distance along the run.</param>
/// <param name="Place">The same place in the words of the layout.</param>
/// <param name="Cost">How unwelcome it is; <c>boundary-joint</c> of shared/prices.csv for an ordinary joint in plain track.</param>
internal sealed record Boundary(double AlongMetres, GapPlace Place, int Cost)
{
    /// <summary>Whether trains stop there.</summary>
    public bool IsAtStop { get; init; }
}

/// <summary>What a boundary has to keep away from.</summary>
internal sealed record BoundaryRules
{
    /// <summary>Distance wanted to turnouts, crossings, other gaps and ends of track, in metres.</summary>
    public double ClearMetres { get; init; } = 0.3;

    /// <summary>Distance that must be kept from them and from the ends of a section that is sawn, in metres.</summary>
    public double LeastMetres { get; init; } = 0.05;

    /// <summary>Sections longer than this, in metres, may be sawn even where a joint would do.</summary>
    public double SawnMetres { get; init; } = 1.5;
}

/// <summary>
/// Finds the places where districts may meet: joints between plain sections, else a saw cut; away from turnouts and
/// crossings, never on a piece that must not be cut.
/// </summary>
internal sealed class Boundaries(Layout layout, BoundaryRules rules)
{
    private static readonly int JointCost = PriceTable.Points("boundary-joint"), CutCost = PriceTable.Points("boundary-cut"),
        AtTurnoutCost = PriceTable.Points("boundary-beside-turnout"), TooNearCost = PriceTable.Points("boundary-too-near"),
        DeadEndCost = PriceTable.Points("boundary-dead-end"), AtStopCost = PriceTable.Points("boundary-where-trains-stop");

    private readonly PieceId[] _stops = [.. layout.Stops];

    private readonly HashSet<PieceId> _noGap = [.. layout.NoGap, .. layout.Track.OfType<Piece.Section>().Where(section => section.LiftOut).Select(section => section.Id)];

    /// <summary>The places of a run, in order along it.</summary>
    /// <param name="run">The run.</param>
    /// <param name="most">How many of them are wanted at most, besides those at the edge of what somebody asked for.</param>
    /// <param name="nameOf">The district that somebody asked a piece to be in, or null.</param>
    public ImmutableArray<Boundary> Of(TrackRun run, int most, Func<PieceId, string?> nameOf) =>
    [
        .. Ordinary(run, most).Concat(Edges(run, nameOf))
            .GroupBy(boundary => Math.Round(boundary.AlongMetres, 4))
            .OrderBy(group => group.Key)
            .Select(group => group.MinBy(boundary => boundary.Cost)!),
    ];

    private ImmutableArray<Boundary> Ordinary(TrackRun run, int most)
    {
        Boundary[] all = [.. Joints(run).Concat(Cuts(run)).OrderBy(boundary => boundary.AlongMetres)];
        Boundary[] clear = [.. all.Where(boundary => Clearance(run, boundary.AlongMetres) >= rules.ClearMetres)];
        if (clear.Length > 0)
        {
            return Spread(clear, most, run.LengthMetres);
        }

        return [.. all.Append(Tight(run)).OfType<Boundary>()
            .Where(boundary => Clearance(run, boundary.AlongMetres) >= rules.LeastMetres)
            .OrderByDescending(boundary => Math.Round(Clearance(run, boundary.AlongMetres), 3)).ThenBy(boundary => boundary.Cost)
            .Take(1)
            .Select(boundary => boundary with { Cost = boundary.Cost + TooNearCost })];
    }

    private static ImmutableArray<Boundary> Spread(Boundary[] clear, int most, double length)
    {
        if (clear.Length <= most)
        {
            return [.. clear];
        }

        return [.. Enumerable.Range(0, most)
            .Select(i => length * (i + 0.5) / most)
            .Select(wanted => clear.OrderBy(boundary => Math.Round(Math.Abs(boundary.AlongMetres - wanted) + (boundary.IsAtStop ? length / most / 2 : 0), 3)).ThenBy(boundary => boundary.Cost).First())
            .Distinct()
            .OrderBy(boundary => boundary.AlongMetres)];
    }

    /// <summary>Joints at which a piece that was asked for meets one that was not, beside a turnout too.</summary>
    private IEnumerable<Boundary> Edges(TrackRun run, Func<PieceId, string?> nameOf)
    {
        if (run.IsRing || run.Parts.IsEmpty)
        {
            yield break;
        }

        List<(PieceId Before, PieceId After, TrackEnd? End, double Along)> joints = [.. run.Parts.Zip(run.Parts.Skip(1))
            .Select(pair => (pair.First.Spot.Piece, pair.Second.Spot.Piece, pair.First.Leaves, pair.First.EndMetres))];
        (RunPart first, RunPart last) = (run.Parts[0], run.Parts[^1]);
        if (run.FromTurnoutPiece is { } from)
        {
            joints.Add((from, first.Spot.Piece, TrackRuns.OtherEnd(first.Spot, !first.Forward), 0));
        }

        if (run.ToTurnoutPiece is { } to)
        {
            joints.Add((last.Spot.Piece, to, last.Leaves, run.LengthMetres));
        }

        foreach ((PieceId before, PieceId after, TrackEnd? end, double along) in joints)
        {
            bool mayCut = !_noGap.Contains(before) && !_noGap.Contains(after);
            if (end is { } at && mayCut && nameOf(before) != nameOf(after))
            {
                yield return Of(run, along, new GapPlace.InJoint(at), AtTurnoutCost, before, after);
            }
        }
    }

    private IEnumerable<Boundary> Joints(TrackRun run)
    {
        int last = run.IsRing ? run.Parts.Length : run.Parts.Length - 1;
        for (int i = 0; i < last; i++)
        {
            (RunPart before, RunPart after) = (run.Parts[i], run.Parts[(i + 1) % run.Parts.Length]);
            if (MayCut(before) && MayCut(after) && before.Leaves is { } end)
            {
                yield return Of(run, before.EndMetres, new GapPlace.InJoint(end), JointCost, before.Spot.Piece, after.Spot.Piece);
            }
        }
    }

    private IEnumerable<Boundary> Cuts(TrackRun run)
    {
        foreach (RunPart part in run.Parts.Where(part => MayCut(part) && part.Spot.LengthMetres > rules.SawnMetres))
        {
            int pieces = (int)Math.Ceiling(part.Spot.LengthMetres / (rules.SawnMetres / 2));
            for (int i = 1; i < pieces; i++)
            {
                double along = part.StartMetres + (part.Spot.LengthMetres * i / pieces);
                yield return Cut(run, part, along);
            }
        }
    }

    /// <summary>A cut as near as possible to the middle of a run that is too short for anything better.</summary>
    private Boundary? Tight(TrackRun run) => run.Parts
        .Where(part => MayCut(part) && part.Spot.LengthMetres > 2 * rules.LeastMetres)
        .Select(part => Cut(run, part, Math.Clamp(run.LengthMetres / 2, part.StartMetres + rules.LeastMetres, part.EndMetres - rules.LeastMetres)))
        .OrderBy(boundary => Math.Round(Math.Abs(boundary.AlongMetres - (run.LengthMetres / 2)), 3))
        .FirstOrDefault();

    private Boundary Cut(TrackRun run, RunPart part, double along)
    {
        TrackPlace exact = part.PlaceAt(along);
        TrackPlace place = exact with { MetresFromA = Math.Round(exact.MetresFromA, 3) };
        return Of(run, along, new GapPlace.InSection(place), CutCost, part.Spot.Piece);
    }

    private Boundary Of(TrackRun run, double along, GapPlace place, int cost, params ReadOnlySpan<PieceId> pieces)
    {
        bool isAtStop = pieces.ContainsAny(_stops);
        return new(along, place, cost + (run.IsTail ? DeadEndCost : 0) + (isAtStop ? AtStopCost : 0)) { IsAtStop = isAtStop };
    }

    private bool MayCut(RunPart part) => part.Spot is { IsPlain: true, IsBridge: false } && !_noGap.Contains(part.Spot.Piece);

    /// <summary>Distance along the run to the nearest turnout, crossing, cut or end of track.</summary>
    private static double Clearance(TrackRun run, double along)
    {
        IEnumerable<double> obstacles = run.Parts.Where(part => !part.Spot.IsPlain).SelectMany(part => new[] { part.StartMetres, part.EndMetres });
        IEnumerable<double> tips = run.IsRing ? [] : [0, run.LengthMetres];
        return obstacles.Concat(tips).Select(position => Math.Abs(position - along)).DefaultIfEmpty(double.PositiveInfinity).Min();
    }
}
