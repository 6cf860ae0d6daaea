namespace WireUp.Circuits.Trains;

/// <summary>The highest transfer resistance in every cell of a lane, at least 0; a ring goes on past its end as far as a slot can.</summary>
internal static class LaneCells
{
    internal static double[] Of(StandingTrack track, StandingLane lane, TransferColumn column, SlotClass slot)
    {
        double length = lane.IsRing ? lane.Length + Math.Max(slot.Reach, slot.Length) + (2 * slot.Cell) : lane.Length;
        double[] cells = new double[(int)Math.Ceiling(length / slot.Cell) + 1];
        for (double round = 0; round < length; round += lane.Length)
        {
            foreach (LaneSpan span in lane.Spans)
            {
                if (span.Live != LaneSpan.Hole)
                {
                    Add(cells, slot.Cell, span with { From = span.From + round, To = span.To + round }, column);
                }
            }
        }

        return cells;
    }

    private static void Add(double[] cells, double width, LaneSpan span, TransferColumn column)
    {
        (double start, double end) = column.Ends(span.Live);
        (start, end) = span.IsReversed ? (end, start) : (start, end);
        if (span.Live != column.Spot.Live)
        {
            AddLine(cells, width, (span.From, start), (span.To, end));
            return;
        }

        // A kink at the place itself.
        (double X, double Ohms) top = (span.Where(column.Spot.Fraction), column.At(column.Spot));
        AddLine(cells, width, (span.From, start), top);
        AddLine(cells, width, top, (span.To, end));
    }

    private static void AddLine(double[] cells, double width, (double X, double Ohms) from, (double X, double Ohms) to)
    {
        if (Math.Max(from.Ohms, to.Ohms) <= 0)
        {
            return;
        }

        double slope = to.X > from.X ? (to.Ohms - from.Ohms) / (to.X - from.X) : 0;
        int first = (int)Math.Floor(from.X / width), last = Math.Min(cells.Length - 1, (int)Math.Floor(to.X / width));
        for (int cell = first; cell <= last; cell++)
        {
            double left = Math.Max(from.X, cell * width), right = Math.Min(to.X, (cell + 1) * width);
            double highest = Math.Max(from.Ohms + (slope * (left - from.X)), slope == 0 ? to.Ohms : from.Ohms + (slope * (right - from.X)));
            cells[cell] = Math.Max(cells[cell], highest);
        }
    }
}

/// <summary>Maxima over windows that slide along a list.</summary>
internal static class WindowMaxima
{
    /// <summary>The largest value from so many places back to so many on, for every place.</summary>
    /// <remarks>The candidates for the maximum are kept in falling order; each value comes and goes once.</remarks>
    internal static double[] Of(double[] values, int back, int on)
    {
        double[] maxima = new double[values.Length];
        int[] queue = new int[values.Length];
        int head = 0, tail = 0, next = 0;
        for (int i = 0; i < values.Length; i++)
        {
            for (; next < values.Length && next <= i + on; next++)
            {
                while (tail > head && values[queue[tail - 1]] <= values[next])
                {
                    tail--;
                }

                queue[tail++] = next;
            }

            while (queue[head] < i - back)
            {
                head++;
            }

            maxima[i] = values[queue[head]];
        }

        return maxima;
    }
}
