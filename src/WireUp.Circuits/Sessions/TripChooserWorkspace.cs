using System.Collections.Immutable;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// Chooses where a train runs next: to a length of plain track, drawn at random from those it fits on, every one as likely. Not where
/// another stands or is bound for, and as long as there are others not where it would close the last way past. Locomotive first
/// where a way leads there so and is free, else pushed. It stops somewhere on that length, wholly on it; in a dead end as far in as it can.
/// </summary>
internal sealed class TripChooserWorkspace
{
    private const int Draws = 12, CarefulDraws = 8;

    private readonly SessionTrack _track;
    private readonly RouteTable _routes;
    private readonly OccupancyWorkspace _occupancy;
    private readonly MovementWorkspace _movement;
    private readonly SeededStreamWorkspace _chance;
    private readonly ImmutableArray<ImmutableArray<int>> _fitting;

    internal TripChooserWorkspace(SessionRailway railway, MovementWorkspace movement, SeededStreamWorkspace chance)
    {
        (_track, _routes, _fitting) = (railway.Track, railway.Routes, railway.Fitting);
        (_occupancy, _movement, _chance) = (movement.Occupancy, movement, chance);
    }

    /// <summary>Gives a standing or waiting train a trip that it can begin at once; it keeps what it had where there is none.</summary>
    internal bool Choose(TrainWorkspace train)
    {
        (int goal, (int Index, double Metres) target, bool onGoal) = (train.Goal, train.Target, train.IsOnGoal);
        bool wasPushed = train.IsPushed;
        ImmutableArray<int> lines = _fitting[train.Number];
        for (int draw = 0; draw < Draws; draw++)
        {
            int line = lines[_chance.Below(lines.Length)];
            double place = _chance.Next();
            bool suits = IsRing(line) || (!_occupancy.IsClaimed(line) && (draw >= CarefulDraws || _occupancy.KeepsOpen(line)));
            if (suits && (IsReady(train, line, place, pushed: false) || IsReady(train, line, place, pushed: true)))
            {
                return true;
            }
        }

        if (ToEndOfLine(train))
        {
            return true;
        }

        _movement.Face(train, wasPushed);
        train.Aim(goal, target, onGoal);
        return false;
    }

    /// <summary>Turns it the way asked for and sets its goal, if it can then begin to move.</summary>
    private bool IsReady(TrainWorkspace train, int line, double place, bool pushed)
    {
        _movement.Face(train, pushed);
        int stretch = _track.Legs[train.Head].Stretch;
        (double there, double back) = (_routes.To(line)[stretch], _routes.To(line + 1)[stretch]);
        int goal = there <= back ? line : line + 1;
        bool stands = Stands(train, line);
        if (!double.IsFinite(Math.Min(there, back)) || (stands && !IsRing(line)))
        {
            return false;
        }

        double metres = _track.Stretches[goal].Metres, room = stands ? metres : _occupancy.Room(goal, metres);
        double clear = Math.Min(train.Unit.Metres, metres);
        if (room < clear)
        {
            return false;
        }

        double front = _track.Stretches[goal].Next.IsEmpty ? room : clear + (place * (room - clear));
        train.Aim(goal, TargetAt(goal, front), onGoal: false);
        return _movement.CanGoOn(train);
    }

    /// <summary>A line that leads back into itself: trains follow each other on it.</summary>
    private bool IsRing(int line) => _track.Stretches[line].Next.Contains(line);

    /// <summary>Where no other line can be reached at all, as on a single length of track: to the end of it that is farther away.</summary>
    private bool ToEndOfLine(TrainWorkspace train)
    {
        if (CanReachAny(train, pushed: false) || CanReachAny(train, pushed: true))
        {
            return false;
        }

        bool pushed = LineLeft(train, pushed: true) > LineLeft(train, pushed: false);
        _movement.Face(train, pushed);
        TrackLeg head = _track.Legs[train.Head];
        ImmutableArray<int> legs = _track.Stretches[head.Stretch].Legs;
        if (head.Index == legs.Length - 1 && train.HeadLeft <= TrainWorkspace.Same)
        {
            return false;
        }

        train.Aim(head.Stretch, (legs.Length - 1, _track.Legs[legs[^1]].Metres), onGoal: true);
        return head.Index == legs.Length - 1 || _movement.CanGoOn(train);
    }

    private bool CanReachAny(TrainWorkspace train, bool pushed)
    {
        _movement.Face(train, pushed);
        int stretch = _track.Legs[train.Head].Stretch;
        return _fitting[train.Number].Any(line =>
            double.IsFinite(_routes.To(line)[stretch]) || double.IsFinite(_routes.To(line + 1)[stretch]));
    }

    private double LineLeft(TrainWorkspace train, bool pushed)
    {
        _movement.Face(train, pushed);
        TrackLeg head = _track.Legs[train.Head];
        return train.HeadLeft + _track.Stretches[head.Stretch].Legs.Skip(head.Index + 1).Sum(leg => _track.Legs[leg].Metres);
    }

    private bool Stands(TrainWorkspace train, int line)
    {
        foreach (int leg in train.Path)
        {
            if (_track.Legs[leg].Stretch / 2 == line / 2)
            {
                return true;
            }
        }

        return false;
    }

    private (int Index, double Metres) TargetAt(int stretch, double metres)
    {
        ImmutableArray<int> legs = _track.Stretches[stretch].Legs;
        int index = 0;
        while (index < legs.Length - 1 && metres > _track.Legs[legs[index]].Metres)
        {
            metres -= _track.Legs[legs[index++]].Metres;
        }

        return (index, Math.Min(metres, _track.Legs[legs[index]].Metres));
    }
}
