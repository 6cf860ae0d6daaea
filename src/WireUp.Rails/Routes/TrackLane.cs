using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Routes;

/// <summary>
/// A length of track that a train can roll along as turnouts stand, from where it must stop to where it must stop, or round and round.
/// </summary>
/// <param name="Steps">Its pieces in order; at least one.</param>
/// <param name="IsRing">Whether the last leads into the first again.</param>
public sealed record TrackLane(ImmutableArray<RouteStep> Steps, bool IsRing)
{
    /// <summary>Length in metres.</summary>
    public double LengthMetres => Steps.Sum(step => step.LengthMetres);

    /// <summary>
    /// Every such length of a layout: each way through a piece that is open belongs to exactly one. Both tracks of a crossing are ways of
    /// their own.
    /// </summary>
    /// <param name="index">The layout.</param>
    /// <param name="positions">Positions of the pieces that move; one that is not named stands in its first.</param>
    public static ImmutableArray<TrackLane> Of(LayoutIndex index, IReadOnlyDictionary<PieceId, string> positions) =>
        new LaneBuilder(index, positions).Build();
}

/// <summary>Walks the open ways of a layout.</summary>
internal sealed class LaneBuilder
{
    private readonly LayoutIndex _index;
    private readonly IReadOnlyDictionary<PieceId, string> _positions;
    private readonly HashSet<(PieceId, DrivableWay)> _walked = [];

    internal LaneBuilder(LayoutIndex index, IReadOnlyDictionary<PieceId, string> positions) => (_index, _positions) = (index, positions);

    internal ImmutableArray<TrackLane> Build()
    {
        ImmutableArray<TrackLane>.Builder lanes = ImmutableArray.CreateBuilder<TrackLane>();
        foreach (Piece piece in _index.Layout.Track)
        {
            foreach (DrivableWay way in Open(piece).Where(way => _walked.Add((piece.Id, way))))
            {
                lanes.Add(Through(piece, way));
            }
        }

        return lanes.ToImmutable();
    }

    private TrackLane Through(Piece piece, DrivableWay way)
    {
        RouteStep first = RouteSteps.Through(piece, piece.End(way.From), piece.End(way.To), way);
        List<RouteStep> onward = Walk(first.Leave!.Value);
        bool ring = _index.Opposite((onward.Count > 0 ? onward[^1] : first).Leave!.Value) == first.Enter;
        IEnumerable<RouteStep> before = ring ? [] : Walk(first.Enter!.Value).Select(Reversed).Reverse();
        return new([.. before, first, .. onward], ring);
    }

    /// <summary>On from an end until no open way is left, or none that has not been walked.</summary>
    private List<RouteStep> Walk(TrackEnd leave)
    {
        List<RouteStep> steps = [];
        while (_index.Opposite(leave) is { } enter)
        {
            Piece piece = _index.Piece(enter.Piece);
            DrivableWay? onward = Open(piece)
                .Where(way => way.From == enter.Name || way.To == enter.Name)
                .Select(way => (DrivableWay?)way)
                .FirstOrDefault(way => _walked.Add((piece.Id, way!.Value)));
            if (onward is not { } taken)
            {
                break;
            }

            leave = piece.End(taken.From == enter.Name ? taken.To : taken.From);
            steps.Add(RouteSteps.Through(piece, enter, leave, taken));
        }

        return steps;
    }

    private static RouteStep Reversed(RouteStep step) => step with
    {
        Enter = step.Leave,
        Leave = step.Enter,
        FromPlaceMetres = step.ToPlaceMetres,
        ToPlaceMetres = step.FromPlaceMetres,
    };

    private IEnumerable<DrivableWay> Open(Piece piece)
    {
        Trackwork row = TrackworkTable.Of(piece, _index.Layout.Control);
        string? stands = _positions.TryGetValue(piece.Id, out string? position) ? position : row.Positions.FirstOrDefault();
        return row.Ways.Where(way => way.Position is null || way.Position == stands);
    }
}
