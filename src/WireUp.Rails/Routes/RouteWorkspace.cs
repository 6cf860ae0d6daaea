using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Routes;

/// <summary>One search for a route.</summary>
internal sealed class RouteWorkspace
{
    private readonly RouteFinder _finder;
    private readonly ImmutableArray<RouteStop> _stops;
    private readonly Dictionary<Spot, Visit> _best = [];
    private readonly HashSet<Spot> _done = [];
    private readonly PriorityQueue<Spot, (double Metres, int Pieces, int Order)> _open = new();
    private int _order;
    private Visit? _goal;

    internal RouteWorkspace(RouteFinder finder, ImmutableArray<RouteStop> stops) => (_finder, _stops) = (finder, stops);

    /// <summary>The most stops that any train got to in their order.</summary>
    internal int MostPassed { get; private set; }

    internal TrackRoute? Run()
    {
        Start();
        while (_open.TryDequeue(out Spot spot, out (double Metres, int Pieces, int Order) cost))
        {
            if (_goal is { } goal && cost.Metres > goal.Metres)
            {
                break;
            }

            if (_done.Add(spot))
            {
                MostPassed = Math.Max(MostPassed, spot.Passed);
                GoOn(spot, _best[spot]);
            }
        }

        return _goal is null ? null : Route(_goal);
    }

    private void Start()
    {
        RouteStop first = _stops[0];
        Piece piece = _finder.Index.Piece(first.Piece);
        switch (first)
        {
            case RouteStop.AtPlace { Place: var place } when piece is Piece.Section section:
                foreach (TrackEnd end in piece.Ends)
                {
                    RouteStep step = RouteSteps.Outward(place, section, end);
                    Reach(new(end, true, 1), new(null, step, step.LengthMetres, 1));
                }

                break;
            case RouteStop.AtEnd { End: var end }:
                Reach(new(end, true, 1), Visit.Beginning);
                Reach(new(end, false, 1), Visit.Beginning);
                break;
            default:
                bool isStop = piece is Piece.Stop;
                foreach (TrackEnd end in piece.Ends)
                {
                    Reach(new(end, isStop, 1), Visit.Beginning);
                }

                break;
        }
    }

    private void GoOn(Spot spot, Visit visit)
    {
        if (spot.Outward)
        {
            if (_finder.Index.Opposite(spot.End) is { } opposite)
            {
                Reach(new(opposite, false, spot.Passed), visit);
            }

            return;
        }

        Piece piece = _finder.Index.Piece(spot.End.Piece);
        foreach ((TrackEnd leave, DrivableWay way) in _finder.Ways(spot.End))
        {
            RouteStep step = RouteSteps.Through(piece, spot.End, leave, way);
            Reach(new(leave, true, spot.Passed), new(visit, step, visit.Metres + step.LengthMetres, visit.Pieces + 1));
        }
    }

    private void Reach(Spot spot, Visit visit)
    {
        while (spot.Passed < _stops.Length && Passes(spot, _stops[spot.Passed]))
        {
            spot = spot with { Passed = spot.Passed + 1 };
        }

        if (spot.Passed == _stops.Length && Ending(spot, visit) is { } goal)
        {
            if (_goal is null || (goal.Metres, goal.Pieces).CompareTo((_goal.Metres, _goal.Pieces)) < 0)
            {
                _goal = goal;
            }
        }
        else if (!_best.TryGetValue(spot, out Visit? before) || (visit.Metres, visit.Pieces).CompareTo((before.Metres, before.Pieces)) < 0)
        {
            _best[spot] = visit;
            _open.Enqueue(spot, (visit.Metres, visit.Pieces, _order++));
        }
    }

    /// <summary>A piece counts as come to when the train rolls into it.</summary>
    private static bool Passes(Spot spot, RouteStop stop) => stop is RouteStop.AtEnd at ? at.End == spot.End : !spot.Outward && stop.Piece == spot.End.Piece;

    /// <summary>The finished way, where this is one: out of the last piece, at the last end, or rolled as far as the last place.</summary>
    private Visit? Ending(Spot spot, Visit visit)
    {
        RouteStop last = _stops[^1];
        if (spot.End.Piece != last.Piece)
        {
            return null;
        }

        switch (last)
        {
            case RouteStop.AtEnd at:
                return at.End == spot.End && visit.Step is not null ? visit : null;
            case RouteStop.AtPlace { Place: var place } when !spot.Outward && _finder.Index.Piece(last.Piece) is Piece.Section section:
                RouteStep step = RouteSteps.Inward(spot.End, section, place);
                return new(visit, step, visit.Metres + step.LengthMetres, visit.Pieces + 1);
            case RouteStop.Through when _finder.Index.Piece(last.Piece) is Piece.Stop:
                return visit.Step is not null ? visit : null;
            default:
                return spot.Outward && last is RouteStop.Through && visit.Step?.Leave == spot.End ? visit : null;
        }
    }

    private static TrackRoute Route(Visit goal)
    {
        List<RouteStep> steps = [];
        for (Visit? visit = goal; visit?.Step is not null; visit = visit.Before)
        {
            steps.Add(visit.Step);
        }

        steps.Reverse();
        return new([.. steps]);
    }

    /// <summary>An end that a train passes, which way, and how many stops are behind it then.</summary>
    private readonly record struct Spot(TrackEnd End, bool Outward, int Passed);

    private sealed record Visit(Visit? Before, RouteStep? Step, double Metres, int Pieces)
    {
        internal static readonly Visit Beginning = new(null, null, 0, 0);
    }
}
