namespace WireUp.Circuits.Trains;

/// <summary>
/// The most by which trains can lower a place, wherever they stand: never less than any real placement gives, and little more.
/// </summary>
/// <remarks>
/// <para>
/// Let I₁ ≥ I₂ ≥ … be the trains' currents and y_j the transfer resistance at which train j acts. Summation by parts gives
/// Σ I_j·y_j = Σ_k (I_k − I_{k+1})·(y₁ + … + y_k), with I after the last zero. The k heaviest trains stand apart, so y₁ + … + y_k is at most
/// T_k, the largest sum of k values on slots that do not overlap, each as long as the shortest of those k trains and the spacing.
/// </para>
/// <para>
/// T_k comes from dynamic programming over cells of width g = slot/K: of two slots in a row the later starts at least K cells after the
/// earlier, wherever within its cell either starts, so nothing is lost by looking at cells. The value of a slot is the highest
/// transfer resistance that an engine at either end of it can have; where cars are lit, their share of the current may act at the highest
/// within the longest train's reach. Fewer slots than k are allowed, so a lane that is too short for all makes no difference; a ring is
/// laid out once and the rest of a slot that passes its end, which can only raise the sum.
/// </para>
/// </remarks>
internal sealed class SlotBound
{
    private readonly StandingTrack _track;
    private readonly double[] _steps;
    private readonly List<SlotClass> _classes = [];

    internal SlotBound(StandingTrack track, TrainSet trains)
    {
        _track = track;
        int[] order = [.. Enumerable.Range(0, trains.Trains.Count).OrderByDescending(train => trains.TotalAmps[train])];
        double[] amps = [.. order.Select(train => trains.TotalAmps[train]), 0];
        _steps = [.. order.Select((_, k) => amps[k] - amps[k + 1])];
        (double shortest, double reach, double share) = (double.PositiveInfinity, 0, 0);
        for (int k = 0; k < order.Length; k++)
        {
            int train = order[k];
            shortest = Math.Min(shortest, trains.Lengths[train]);
            if (trains.TotalAmps[train] > trains.EngineAmps[train])
            {
                reach = Math.Max(reach, trains.Lengths[train]);
                share = Math.Max(share, 1 - (trains.EngineAmps[train] / trains.TotalAmps[train]));
            }

            SlotClass here = new(k + 1, shortest, shortest + trains.SpacingMetres, reach, share);
            if (_classes.Count > 0 && _classes[^1] with { Most = here.Most } == here)
            {
                _classes.RemoveAt(_classes.Count - 1);
            }

            _classes.Add(here);
        }
    }

    /// <summary>How many cells one answer looks at: what it costs.</summary>
    internal double Work => _classes.Sum(slot => _track.Lanes.Where(lane => lane.HasPower).Sum(lane => lane.Length) / slot.Cell * slot.Most);

    /// <summary>The most by which the trains lower the place of a column, volt.</summary>
    internal double MostDrop(TransferColumn column)
    {
        double drop = 0;
        int done = 0;
        foreach (SlotClass slot in _classes)
        {
            double[] sums = LargestSums(column, slot);
            for (; done < slot.Most; done++)
            {
                drop += _steps[done] * sums[done + 1];
            }
        }

        return drop;
    }

    /// <summary>The largest sums of up to 0, 1, … slots over all lanes.</summary>
    private double[] LargestSums(TransferColumn column, SlotClass slot)
    {
        double[] all = new double[slot.Most + 1];
        foreach (StandingLane lane in _track.Lanes.Where(lane => lane.HasPower))
        {
            double[] cells = LaneCells.Of(_track, lane, column, slot);
            if (cells.Any(cell => cell > 0))
            {
                all = Together(all, OnLane(SlotValues(cells, lane, slot), slot));
            }
        }

        return all;
    }

    /// <summary>The value of a slot that starts in each cell.</summary>
    private static double[] SlotValues(double[] cells, StandingLane lane, SlotClass slot)
    {
        const double Rounding = 1e-6;
        double last = lane.IsRing ? lane.Length : lane.Length - slot.Length + Rounding;
        if (last < 0)
        {
            return [];
        }

        double[] values = new double[Math.Min(cells.Length, (int)Math.Floor(last / slot.Cell) + 1)];
        double[] far = slot.Share > 0 ? WindowMaxima.Of(cells, slot.CellsBack, slot.CellsOn) : [];
        if (lane.IsRing)
        {
            // What lies before the first cells is the end of the ring: take the highest of all.
            far.AsSpan(0, Math.Min(far.Length, slot.CellsBack)).Fill(cells.Max());
        }

        for (int i = 0; i < values.Length; i++)
        {
            int end = (int)Math.Floor(slot.Length / slot.Cell);
            double atEnds = Math.Max(cells[i], Math.Max(At(cells, i + end), At(cells, i + end + 1)));
            values[i] = slot.Share > 0 ? atEnds + (slot.Share * (far[i] - atEnds)) : atEnds;
        }

        return values;
    }

    private static double At(double[] cells, int i) => i < cells.Length ? cells[i] : 0;

    private static double[] OnLane(double[] values, SlotClass slot)
    {
        int apart = SlotClass.CellsInSlot(slot);
        double[] sums = new double[slot.Most + 1];
        double[] fewer = new double[values.Length], more = new double[values.Length];
        for (int k = 1; k <= slot.Most && values.Length > 0; k++)
        {
            double best = 0;
            for (int i = 0; i < values.Length; i++)
            {
                best = Math.Max(best, values[i] + (i >= apart ? fewer[i - apart] : 0));
                more[i] = best;
            }

            sums[k] = best;
            (fewer, more) = (more, fewer);
        }

        return sums;
    }

    private static double[] Together(double[] one, double[] other)
    {
        double[] sums = new double[one.Length];
        for (int k = 0; k < sums.Length; k++)
        {
            for (int j = 0; j <= k; j++)
            {
                sums[k] = Math.Max(sums[k], one[j] + other[k - j]);
            }
        }

        return sums;
    }
}

/// <summary>How the heaviest trains up to a number are looked at.</summary>
/// <param name="Most">How many trains.</param>
/// <param name="Length">Length of the shortest of them, metres.</param>
/// <param name="Slot">That and the spacing.</param>
/// <param name="Reach">Length of the longest of them that has lit cars; 0 without any.</param>
/// <param name="Share">Largest part of a train's current that lit cars draw, 0 to 1.</param>
internal readonly record struct SlotClass(int Most, double Length, double Slot, double Reach, double Share)
{
    /// <summary>Wider cells make a bound coarser, narrower ones cost time.</summary>
    private const double WidestCellMetres = 0.1;

    private const int FewestCells = 6;

    /// <summary>Slots are taken that much shorter, so that rounding never keeps two apart that touch.</summary>
    private const double RoundingMetres = 1e-6;

    /// <summary>Width of a cell in metres.</summary>
    internal double Cell => (Slot - RoundingMetres) / CellsInSlot(this);

    /// <summary>Cells before a slot's first that its cars can reach.</summary>
    internal int CellsBack => (int)Math.Ceiling(Math.Max(0, Reach - Length) / Cell) + 1;

    /// <summary>Cells after a slot's first that its cars can reach.</summary>
    internal int CellsOn => (int)Math.Ceiling(Math.Max(Reach, Length) / Cell) + 1;

    /// <summary>Cells in a slot.</summary>
    internal static int CellsInSlot(SlotClass slot) => Math.Max(FewestCells, (int)Math.Ceiling(slot.Slot / WidestCellMetres));
}
