namespace WireUp.Circuits.Sessions;

/// <summary>
/// Finds how a train goes on when it comes to trackwork: over as many stretches as it takes to stand clear of the next trackwork, all
/// of them free, so that it never stops on a turnout if the track lets it. It never goes where another heads towards it.
/// </summary>
internal sealed class WayFinderWorkspace(SessionTrack track, RouteTable routes, OccupancyWorkspace occupancy)
{
    /// <summary>Most stretches of one search: a ladder of thirty turnouts.</summary>
    private const int Deepest = 64;

    /// <summary>Most ways tried in one search; then the train waits.</summary>
    private const int MostTries = 256;

    /// <summary>A way round is taken at once when it is no longer than this many times the shortest, and one train's length.</summary>
    private const double AroundOverShortest = 1.5;

    private readonly List<int> _chain = [];
    private TrainWorkspace? _train;
    private double[] _toGo = [];
    private int _goal, _tries;

    /// <summary>The stretches to go on over after the one its head is on, or none.</summary>
    internal IReadOnlyList<int> After(TrainWorkspace train, int stretch)
    {
        (_train, _goal, _tries) = (train, train.Goal, 0);
        _toGo = routes.To(_goal);
        _chain.Clear();
        if (!Extend(stretch, 0))
        {
            _chain.Clear();
        }

        return _chain;
    }

    private double Metres => _train!.Unit.Metres;

    private bool Extend(int stretch, double driven)
    {
        if (_chain.Count >= Deepest)
        {
            return false;
        }

        double shortest = double.PositiveInfinity;
        foreach (int next in track.Stretches[stretch].Next)
        {
            shortest = Math.Min(shortest, Cost(next));
        }

        (double Cost, int Stretch) before = (-1, -1);
        while (Following(stretch, before) is { } choice && choice.Cost <= (AroundOverShortest * shortest) + Metres && ++_tries <= MostTries)
        {
            before = choice;
            if (!Admits(choice.Stretch))
            {
                continue;
            }

            _chain.Add(choice.Stretch);
            double so = driven + track.Stretches[choice.Stretch].Metres;
            if (StandsClear(choice.Stretch, so) || Extend(choice.Stretch, so))
            {
                return true;
            }

            _chain.RemoveAt(_chain.Count - 1);
        }

        return false;
    }

    /// <summary>The next dearer way to go on; of equal ones in the order of the track.</summary>
    private (double Cost, int Stretch)? Following(int stretch, (double Cost, int Stretch) before)
    {
        (double Cost, int Stretch)? best = null;
        foreach (int next in track.Stretches[stretch].Next)
        {
            (double, int) key = (Cost(next), next);
            if (double.IsFinite(key.Item1) && key.CompareTo(before) > 0 && (best is null || key.CompareTo(best.Value) < 0))
            {
                best = key;
            }
        }

        return best;
    }

    private double Cost(int next) => next == _goal ? 0 : track.Stretches[next].Metres + _toGo[next];

    private bool Admits(int next)
    {
        TrackStretch stretch = track.Stretches[next];
        if (stretch.IsTrackwork)
        {
            return occupancy.IsFree(stretch.Legs[0]) && !Crosses(stretch.Legs[0]);
        }

        double wanted = Math.Min(Metres, stretch.Metres);
        return !_chain.Contains(next)
            && !occupancy.IsOpposed(next)
            && (next == _goal || !occupancy.HasParked(next))
            && occupancy.Room(next, wanted) >= wanted - TrainWorkspace.Same;
    }

    /// <summary>Whether the way found so far runs over a piece of trackwork already.</summary>
    private bool Crosses(int leg)
    {
        int cell = track.Legs[leg].Cell;
        foreach (int stretch in _chain)
        {
            if (track.Stretches[stretch].IsTrackwork && track.Legs[track.Stretches[stretch].Legs[0]].Cell == cell)
            {
                return true;
            }
        }

        return false;
    }

    private bool StandsClear(int next, double driven)
    {
        TrackStretch stretch = track.Stretches[next];
        return next == _goal || (!stretch.IsTrackwork && (stretch.Metres >= Metres || stretch.Next.IsEmpty || driven >= 2 * Metres));
    }
}
