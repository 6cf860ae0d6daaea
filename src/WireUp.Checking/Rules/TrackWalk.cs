using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A stretch of track found on a walk.</summary>
/// <param name="Metres">How far from where the walk began it begins.</param>
/// <param name="At">Where that is, in the words of the layout file.</param>
/// <param name="First">A node of its first conductor.</param>
/// <param name="Second">A node of its second conductor.</param>
internal readonly record struct Stretch(double Metres, string At, int First, int Second);

/// <summary>
/// Walks along the track as wheels roll: over gaps, through turnouts whatever way they lie, in both directions. Finds the nearest track
/// of which something holds.
/// </summary>
internal sealed class TrackWalk(RailGraph graph, Func<Stretch, bool> isGoal)
{
    private readonly (RailSide First, RailSide Second) _sides = RailSides.Of(graph.Layout.Control);
    private readonly PriorityQueue<TrackEnd, (double Metres, int Order)> _open = new();
    private readonly HashSet<TrackEnd> _entered = [];
    private Stretch? _found;
    private int _order;

    /// <summary>Begins at the joint of an end, going away from its piece.</summary>
    internal TrackWalk Outward(TrackEnd end)
    {
        Leave(end, 0);
        return this;
    }

    /// <summary>Begins within a section, at a station, going both ways.</summary>
    internal TrackWalk Around(PieceId section, int station)
    {
        Along(section, station, towardsB: true, 0);
        Along(section, station, towardsB: false, 0);
        return this;
    }

    /// <summary>The nearest goal, or null where no track leads to one.</summary>
    internal Stretch? Nearest()
    {
        while (_open.TryDequeue(out TrackEnd end, out (double Metres, int Order) at) && !(at.Metres >= _found?.Metres))
        {
            if (_entered.Add(end))
            {
                Enter(end, at.Metres);
            }
        }

        return _found;
    }

    private void Enter(TrackEnd end, double metres)
    {
        Piece piece = graph.Index.Piece(end.Piece);
        if (piece is Piece.Section)
        {
            int last = graph.Stations(piece.Id).Length - 1;
            Along(piece.Id, end.Name == "a" ? 0 : last, end.Name == "a", metres);
            return;
        }

        Offer(EndOf(end, metres));
        foreach (DrivableWay way in TrackworkTable.Of(piece, graph.Layout.Control).Ways.Where(way => way.From == end.Name || way.To == end.Name))
        {
            TrackEnd exit = piece.End(way.From == end.Name ? way.To : way.From);
            Offer(EndOf(exit, metres + piece.WayMetres));
            Leave(exit, metres + piece.WayMetres);
        }
    }

    private void Along(PieceId section, int from, bool towardsB, double metres)
    {
        ImmutableArray<Station> stations = graph.Stations(section);
        int step = towardsB ? 1 : -1;
        for (int i = from; i + step >= 0 && i + step < stations.Length; i += step)
        {
            Station here = stations[i];
            (int first, int second) = towardsB ? (here.FirstTowardsB, here.SecondTowardsB) : (here.FirstTowardsA, here.SecondTowardsA);
            Offer(new(metres + Math.Abs(here.Metres - stations[from].Metres), new TrackPlace(section, here.Metres).ToString(), first, second));
        }

        Leave(new(section, towardsB ? "b" : "a"), metres + Math.Abs(stations[towardsB ? ^1 : 0].Metres - stations[from].Metres));
    }

    private Stretch EndOf(TrackEnd end, double metres) =>
        new(metres, end.ToString(), graph.NodeAt(new(end, _sides.First)), graph.NodeAt(new(end, _sides.Second)));

    private void Leave(TrackEnd end, double metres)
    {
        if (graph.Index.Opposite(end) is { } next)
        {
            _open.Enqueue(next, (metres, _order++));
        }
    }

    private void Offer(Stretch stretch)
    {
        if (!(stretch.Metres >= _found?.Metres) && isGoal(stretch))
        {
            _found = stretch;
        }
    }
}
