using System.Collections.Immutable;

namespace WireUp.Circuits.Sessions;

/// <summary>Finds room for a train that is set down by hand, at random.</summary>
internal sealed class PlacementWorkspace(SessionRailway railway, MovementWorkspace movement, SeededStreamWorkspace chance)
{
    private const int CarefulDraws = 40, Draws = 80;

    private readonly SessionTrack _track = railway.Track;
    private readonly List<int> _legs = [];

    /// <summary>Sets a train down where it closes no last way past, or else wherever there is room; false where there is none.</summary>
    internal bool SetDown(TrainWorkspace train)
    {
        ImmutableArray<int> lines = railway.Fitting[train.Number];
        for (int draw = 0; draw < Draws && lines.Length > 0; draw++)
        {
            int line = lines[chance.Below(lines.Length)], way = line + chance.Below(2);
            double place = chance.Next();
            if ((draw >= CarefulDraws || movement.Occupancy.KeepsOpen(line)) && Fits(train, way, place))
            {
                return true;
            }
        }

        foreach (int line in lines)
        {
            if (Fits(train, line, 0) || Fits(train, line + 1, 0))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Its first wheel somewhere on a stretch, its last wheel on it too; over several where none is as long as the train.</summary>
    private bool Fits(TrainWorkspace train, int stretch, double place)
    {
        double length = train.Unit.Metres, metres = _track.Stretches[stretch].Metres, room = movement.Occupancy.Room(stretch, metres);
        if (room >= length)
        {
            return Put(train, stretch, length + (place * (Math.Min(room, metres) - length)));
        }

        return room >= metres && metres < length && Put(train, stretch, length);
    }

    private bool Put(TrainWorkspace train, int stretch, double front)
    {
        _legs.Clear();
        double reached = 0;
        for (int next = stretch; next >= 0; next = Onward(next))
        {
            foreach (int leg in _track.Stretches[next].Legs)
            {
                if (!movement.Occupancy.IsFree(leg) || _legs.Exists(other => _track.Legs[other].Cell == _track.Legs[leg].Cell))
                {
                    return false;
                }

                _legs.Add(leg);
                reached += _track.Legs[leg].Metres;
                if (reached >= front)
                {
                    movement.SetDown(train, _legs, reached - front);
                    return true;
                }
            }
        }

        return false;
    }

    private int Onward(int stretch) => _track.Stretches[stretch].Next is [var first, ..] ? first : -1;
}
