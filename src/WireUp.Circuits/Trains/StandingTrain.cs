namespace WireUp.Circuits.Trains;

/// <summary>A train that stands on a lane.</summary>
/// <param name="Train">Index of its demand.</param>
/// <param name="Lane">Index of the lane.</param>
/// <param name="Head">Where its engine draws, metres along the lane.</param>
/// <param name="Onward">Whether it faces along the lane, so that its cars are behind at smaller distances.</param>
/// <param name="Live">The live length of track that its engine draws from: at a gap there is one on either side.</param>
internal readonly record struct StandingTrain(int Train, int Lane, double Head, bool Onward, int Live)
{
    /// <summary>Its two ends; on a ring either can lie beyond the ends of the lane.</summary>
    internal (double Low, double High) Body(double length) => Onward ? (Head - length, Head) : (Head, Head + length);

    /// <summary>A point behind its head.</summary>
    internal double Behind(double metres) => Onward ? Head - metres : Head + metres;
}

/// <summary>One current that a standing train draws.</summary>
internal readonly record struct TrainLoad(LiveSpot Spot, double Amps);

/// <summary>The trains to place: what each draws where, and which places exclude each other.</summary>
internal sealed class TrainSet
{
    private readonly StandingTrack _track;

    internal TrainSet(StandingTrack track, IReadOnlyList<TrainDemand> trains, double spacingMetres)
    {
        (_track, Trains, SpacingMetres) = (track, trains, spacingMetres);
        Lengths = [.. trains.Select(train => train.Length.Meters)];
        EngineAmps = [.. trains.Select(train => train.Engines.Amperes)];
        CarAmps = [.. trains.Select(train => train.LitCar.Amperes)];
        TotalAmps = [.. trains.Select(train => train.Total.Amperes)];
    }

    internal IReadOnlyList<TrainDemand> Trains { get; }

    internal double SpacingMetres { get; }

    internal double[] Lengths { get; }

    internal double[] EngineAmps { get; }

    internal double[] CarAmps { get; }

    internal double[] TotalAmps { get; }

    /// <summary>Where a train draws its currents, its engines first.</summary>
    internal IEnumerable<TrainLoad> Loads(StandingTrain standing)
    {
        StandingLane lane = _track.Lanes[standing.Lane];
        yield return new(_track.SpotOf(standing), EngineAmps[standing.Train]);
        int cars = CarAmps[standing.Train] > 0 ? Trains[standing.Train].LitCars : 0;
        for (int car = 0; car < cars; car++)
        {
            double x = lane.Wrap(standing.Behind(Lengths[standing.Train] * (car + 0.5) / cars));
            LaneSpan span = lane.SpanAt(x);
            if (span.Live != LaneSpan.Hole)
            {
                yield return new(span.At(x), CarAmps[standing.Train]);
            }
        }
    }

    /// <summary>Whether a train can stand so: its engine on live track, all of it on the lane, clear of the others.</summary>
    internal bool Fits(StandingTrain standing, List<StandingTrain> others)
    {
        const double Rounding = 1e-9;
        StandingLane lane = _track.Lanes[standing.Lane];
        (double low, double high) = standing.Body(Lengths[standing.Train]);
        if (standing.Live == LaneSpan.Hole)
        {
            return false;
        }

        if (lane.IsRing ? high - low + SpacingMetres > lane.Length : low < -Rounding || high > lane.Length + Rounding)
        {
            return false;
        }

        foreach (StandingTrain other in others)
        {
            if ((other.Lane == standing.Lane && Near(lane, standing, other)) || Crosses(standing, other))
            {
                return false;
            }
        }

        return true;
    }

    private bool Near(StandingLane lane, StandingTrain one, StandingTrain two)
    {
        const double Rounding = 1e-9;
        ((double low, double high), (double otherLow, double otherHigh)) = (one.Body(Lengths[one.Train]), two.Body(Lengths[two.Train]));
        double apart = SpacingMetres - Rounding;
        if (!lane.IsRing)
        {
            return low < otherHigh + apart && otherLow < high + apart;
        }

        // Once round from the one's low end: the other must begin behind the one's high end and end before the one begins again.
        double start = otherLow - low;
        start -= Math.Floor((start + Rounding) / lane.Length) * lane.Length;
        return start < high - low + apart || start + (otherHigh - otherLow) + apart > lane.Length;
    }

    private bool Crosses(StandingTrain one, StandingTrain two)
    {
        foreach (SharedPiece shared in _track.Shared)
        {
            if ((Covers(one, shared.FirstLane, shared.FirstFrom, shared.FirstTo) && Covers(two, shared.SecondLane, shared.SecondFrom, shared.SecondTo))
                || (Covers(two, shared.FirstLane, shared.FirstFrom, shared.FirstTo) && Covers(one, shared.SecondLane, shared.SecondFrom, shared.SecondTo)))
            {
                return true;
            }
        }

        return false;
    }

    private bool Covers(StandingTrain standing, int lane, double from, double to)
    {
        if (standing.Lane != lane)
        {
            return false;
        }

        (double low, double high) = standing.Body(Lengths[standing.Train]);
        double round = _track.Lanes[lane].IsRing ? _track.Lanes[lane].Length : double.PositiveInfinity;
        return Overlaps(low, high, from, to) || Overlaps(low + round, high + round, from, to) || Overlaps(low - round, high - round, from, to);
    }

    private static bool Overlaps(double low, double high, double from, double to) => low < to && from < high;
}
