namespace WireUp.Circuits.Sessions;

/// <summary>What a train does.</summary>
internal enum TrainDoing
{
    /// <summary>It stands, nobody drives it.</summary>
    Standing,

    /// <summary>It stands at the end of its trip, its operator still with it.</summary>
    Dwelling,

    /// <summary>It runs, perhaps close behind another.</summary>
    Running,

    /// <summary>Its operator waits before an occupied way.</summary>
    Waiting,

    /// <summary>It is not on the railway.</summary>
    Away,
}

/// <summary>A train while a session runs: the legs under it, and where on them it is.</summary>
internal sealed class TrainWorkspace(int number, TrainUnit unit, SessionTrack track)
{
    /// <summary>Lengths closer than this, metres, are the same: rounding only.</summary>
    internal const double Same = 1e-9;

    private double _covered;
    private bool _crossesBorder;
    private (Draws Draws, int District) _drawn = (Draws.Nothing, -1);

    internal int Number => number;

    internal TrainUnit Unit => unit;

    /// <summary>The legs under it, last wheel to first as it is heading.</summary>
    internal List<int> Path { get; } = [];

    /// <summary>Legs ahead that are taken for it already.</summary>
    internal Queue<int> Granted { get; } = new();

    /// <summary>From its first wheel to the end of the leg there, metres.</summary>
    internal double HeadLeft { get; set; }

    /// <summary>Whether its locomotives are at the end as it is heading.</summary>
    internal bool IsPushed { get; private set; }

    /// <summary>For each consumer the district it stands on.</summary>
    internal int[] Districts { get; } = new int[unit.Consumers.Length];

    /// <summary>For each consumer the current it draws, microamperes.</summary>
    internal int[] Drawn { get; } = new int[unit.Consumers.Length];

    internal TrainDoing State { get; set; } = TrainDoing.Away;

    internal double Speed { get; set; }

    /// <summary>When <see cref="HeadLeft"/> was true.</summary>
    internal double At { get; set; }

    internal double StartingUntil { get; set; }

    /// <summary>Since when its way is occupied; no number while it is free.</summary>
    internal double HeldSince { get; set; } = double.NaN;

    internal double PatienceUntil { get; set; }

    /// <summary>The stretch it runs to, −1 without a trip; it stops at a place of one leg of it.</summary>
    internal int Goal { get; private set; } = -1;

    internal (int Index, double Metres) Target { get; private set; }

    /// <summary>Whether its first wheel has come onto the goal.</summary>
    internal bool IsOnGoal { get; private set; }

    /// <summary>Tells events that still hold from ones that have been replaced.</summary>
    internal int Stamp { get; set; }

    internal int Head => Path[^1];

    /// <summary>From the start of the first leg under it to its last wheel, metres.</summary>
    internal double TailInto => _covered - unit.Metres - HeadLeft;

    /// <summary>How far it is to the place where it stops, infinite while that is not on this leg.</summary>
    internal double ToTarget => IsOnGoal && track.Legs[Head].Index == Target.Index
        ? Math.Max(0, HeadLeft - (track.Legs[Head].Metres - Target.Metres))
        : double.PositiveInfinity;

    /// <summary>Sets it onto the track.</summary>
    /// <param name="legs">The legs under it, last wheel to first.</param>
    /// <param name="headLeft">What is left of the last of them.</param>
    internal void SetDown(IEnumerable<int> legs, double headLeft)
    {
        Path.Clear();
        Path.AddRange(legs);
        HeadLeft = headLeft;
        IsPushed = false;
        Measure();
    }

    /// <summary>Gives it a goal and a place there; −1 for none.</summary>
    internal void Aim(int goal, (int Index, double Metres) target, bool onGoal) => (Goal, Target, IsOnGoal) = (goal, target, onGoal);

    /// <summary>Its first wheel comes onto the next leg.</summary>
    internal void Enter(int leg)
    {
        Path.Add(leg);
        HeadLeft += track.Legs[leg].Metres;
        IsOnGoal |= track.Legs[leg].Stretch == Goal && track.Legs[leg].Index == 0;
        Measure();
    }

    /// <summary>Whether its last wheel has left the first leg under it.</summary>
    internal bool HasLeftTail => Path.Count > 1 && TailInto >= track.Legs[Path[0]].Metres - Same;

    /// <summary>Takes the first leg from under it.</summary>
    internal void DropTail()
    {
        Path.RemoveAt(0);
        Measure();
    }

    /// <summary>It heads the other way.</summary>
    internal void Turn()
    {
        double headLeft = Math.Max(0, TailInto);
        Path.Reverse();
        for (int i = 0; i < Path.Count; i++)
        {
            Path[i] ^= 1;
        }

        HeadLeft = headLeft;
        IsPushed = !IsPushed;
        Measure();
    }

    /// <summary>How far it can run until something happens: end of leg, stop, a leg left, a consumer at a border of districts.</summary>
    internal double ToNext()
    {
        double next = Math.Min(HeadLeft, ToTarget);
        if (Path.Count > 1)
        {
            next = Math.Min(next, Math.Max(0, track.Legs[Path[0]].Metres - TailInto));
        }

        if (_crossesBorder)
        {
            for (int i = 0; i < unit.Consumers.Length; i++)
            {
                next = Math.Min(next, ToBorder(i));
            }
        }

        return next;
    }

    /// <summary>Whether all of it draws this already on the one district it is on; if not, it is about to.</summary>
    internal bool IsDrawnAs(Draws draws)
    {
        (Draws, int) now = (draws, _crossesBorder || draws == Draws.Nothing ? -1 : track.Legs[Path[0]].District);
        bool same = now == _drawn && now.Item2 >= 0;
        _drawn = now;
        return same;
    }

    /// <summary>The district under a consumer now; at a border that ahead of it.</summary>
    internal int DistrictUnder(int consumer)
    {
        (int at, _) = Locate(consumer);
        return track.Legs[Path[at]].District;
    }

    private double ToBorder(int consumer)
    {
        (int at, double left) = Locate(consumer);
        int district = track.Legs[Path[at]].District;
        while (at + 1 < Path.Count)
        {
            TrackLeg next = track.Legs[Path[++at]];
            if (next.District != district)
            {
                return left;
            }

            left += next.Metres;
        }

        return double.PositiveInfinity;
    }

    /// <summary>Which leg of the path a consumer is on, and how far it is from there to the leg's end.</summary>
    private (int At, double Left) Locate(int consumer)
    {
        double behind = unit.Consumers[consumer].Metres;
        double left = (IsPushed ? unit.Metres - behind : behind) + HeadLeft;
        int at = Path.Count - 1;
        while (at > 0 && left > track.Legs[Path[at]].Metres + Same)
        {
            left -= track.Legs[Path[at--]].Metres;
        }

        return (at, left);
    }

    private void Measure()
    {
        _covered = 0;
        _crossesBorder = false;
        int district = track.Legs[Path[0]].District;
        foreach (int leg in Path)
        {
            _covered += track.Legs[leg].Metres;
            _crossesBorder |= track.Legs[leg].District != district;
        }
    }
}
