namespace WireUp.Circuits.Sessions;

/// <summary>Puts trains onto track and takes them off it, so that who has what always agrees with where trains are.</summary>
internal sealed class MovementWorkspace
{
    private readonly SessionTrack _track;
    private readonly WayFinderWorkspace _ways;

    internal MovementWorkspace(SessionRailway railway)
    {
        _track = railway.Track;
        Occupancy = new OccupancyWorkspace(_track);
        _ways = new WayFinderWorkspace(_track, railway.Routes, Occupancy);
    }

    internal OccupancyWorkspace Occupancy { get; }

    /// <summary>Sets a train down on legs that are free.</summary>
    internal void SetDown(TrainWorkspace train, IReadOnlyList<int> legs, double headLeft)
    {
        foreach (int leg in legs)
        {
            Occupancy.Take(leg, train.Number);
        }

        train.SetDown(legs, headLeft);
        Count(train, 1);
        while (train.HasLeftTail)
        {
            DropTail(train);
        }
    }

    /// <summary>Takes a train off the railway.</summary>
    internal void LiftOff(TrainWorkspace train)
    {
        GiveBackGranted(train);
        Count(train, -1);
        foreach (int leg in train.Path)
        {
            Occupancy.GiveBack(leg);
        }

        train.Path.Clear();
    }

    /// <summary>Whether the next length of its way is free, its first wheel being anywhere.</summary>
    internal bool CanGoOn(TrainWorkspace train) => train.Granted.Count > 0
        || (NextOfLine(train.Head) is { } next ? Occupancy.IsFree(next) : _ways.After(train, _track.Legs[train.Head].Stretch).Count > 0);

    /// <summary>Brings its first wheel onto the next leg, if that is free.</summary>
    internal bool GoOn(TrainWorkspace train)
    {
        if (train.Granted.Count == 0)
        {
            if (NextOfLine(train.Head) is { } next)
            {
                if (!Occupancy.IsFree(next))
                {
                    return false;
                }

                Grant(train, next);
            }
            else
            {
                Grant(train, _ways.After(train, _track.Legs[train.Head].Stretch));
            }
        }

        if (!train.Granted.TryDequeue(out int leg))
        {
            return false;
        }

        train.Enter(leg);
        return true;
    }

    /// <summary>The train ahead that keeps it from the next leg of its line; −1 at trackwork.</summary>
    internal int Ahead(TrainWorkspace train) => NextOfLine(train.Head) is { } next ? Occupancy.OwnerOf(next) : -1;

    /// <summary>Gives back what its last wheel has left.</summary>
    internal void DropTail(TrainWorkspace train)
    {
        int leg = train.Path[0];
        TrackLeg tail = _track.Legs[leg];
        Occupancy.GiveBack(leg);
        train.DropTail();
        if (tail.Index == _track.Stretches[tail.Stretch].Legs.Length - 1)
        {
            Occupancy.Heads(tail.Stretch, -1);
        }
    }

    /// <summary>Turns it, if need be, so that it heads with its locomotives behind or in front.</summary>
    internal void Face(TrainWorkspace train, bool pushed)
    {
        if (train.IsPushed != pushed)
        {
            GiveBackGranted(train);
            Count(train, -1);
            train.Turn();
            Count(train, 1);
        }
    }

    /// <summary>Counts a train on every stretch under it as one that stands there (1) instead of one that heads along it, or back (−1).</summary>
    internal void Parks(TrainWorkspace train, int count)
    {
        Count(train, -count);
        foreach (int stretch in Under(train))
        {
            Occupancy.Parks(stretch, count);
        }
    }

    /// <summary>Gives back track ahead that was taken for it.</summary>
    internal void GiveBackGranted(TrainWorkspace train)
    {
        while (train.Granted.TryDequeue(out int leg))
        {
            Occupancy.GiveBack(leg);
            if (_track.Legs[leg].Index == 0)
            {
                Occupancy.Heads(_track.Legs[leg].Stretch, -1);
            }
        }
    }

    private int? NextOfLine(int leg)
    {
        (int index, TrackStretch stretch) = (_track.Legs[leg].Index, _track.Stretches[_track.Legs[leg].Stretch]);
        return index + 1 < stretch.Legs.Length ? stretch.Legs[index + 1] : null;
    }

    /// <summary>All of every stretch but the last; of that one all where it is too short to stand clear on, else its first leg.</summary>
    private void Grant(TrainWorkspace train, IReadOnlyList<int> chain)
    {
        for (int i = 0; i < chain.Count; i++)
        {
            TrackStretch stretch = _track.Stretches[chain[i]];
            bool whole = i + 1 < chain.Count || stretch.IsTrackwork || stretch.Metres < train.Unit.Metres;
            Occupancy.Heads(chain[i], 1);
            foreach (int leg in whole ? stretch.Legs : [stretch.Legs[0]])
            {
                Grant(train, leg);
            }
        }
    }

    private void Grant(TrainWorkspace train, int leg)
    {
        Occupancy.Take(leg, train.Number);
        train.Granted.Enqueue(leg);
    }

    private void Count(TrainWorkspace train, int count)
    {
        foreach (int stretch in Under(train))
        {
            Occupancy.Heads(stretch, count);
        }
    }

    /// <summary>The stretches under a train, one twice where both ends of the train are on it and its middle is not.</summary>
    private IEnumerable<int> Under(TrainWorkspace train)
    {
        for (int i = 0; i < train.Path.Count; i++)
        {
            TrackLeg leg = _track.Legs[train.Path[i]];
            if (i == 0 || leg.Index == 0)
            {
                yield return leg.Stretch;
            }
        }
    }
}
