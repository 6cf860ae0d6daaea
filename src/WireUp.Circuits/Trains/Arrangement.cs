using System.Collections.Immutable;

namespace WireUp.Circuits.Trains;

/// <summary>Trains that stand, the first at the place that is looked at.</summary>
/// <param name="Trains">The trains that have found room.</param>
/// <param name="Volts">Volts at the first train's engine.</param>
internal sealed record Arrangement(ImmutableArray<StandingTrain> Trains, double Volts);

/// <summary>
/// Places trains so that they lower one place as much as possible: the heaviest first, each where it tells most, then taken out and put
/// back as long as that helps.
/// </summary>
/// <remarks>
/// Without lit cars a train acts through one point, and along a lane the transfer resistance is made of straight lines: among the ends of
/// those, the ends of the lane and the places next to trains that stand already is a best one.
/// </remarks>
internal sealed class ArrangementFinder
{
    private const int MostRounds = 4;

    /// <summary>A train with lit cars acts through many points; so many of the likeliest places are tried for it.</summary>
    private const int TriedWithCars = 64;

    private readonly StandingTrack _track;
    private readonly TrainSet _set;
    private readonly TransferColumn _column;
    private readonly ImmutableArray<(int Lane, double X, int Live, double Ohms)> _marks;

    internal ArrangementFinder(StandingTrack track, TrainSet set, TransferColumn column)
    {
        (_track, _set, _column) = (track, set, column);
        _marks = [.. Marks().OrderByDescending(mark => mark.Ohms)];
    }

    /// <summary>The best found with that train's engine at the place of the column, or null where it has no room there.</summary>
    internal Arrangement? Around(StandingTrain first, bool thorough)
    {
        List<StandingTrain> trains = [];
        if (!_set.Fits(first, trains))
        {
            return null;
        }

        trains.Add(first);
        foreach (int train in Enumerable.Range(0, _set.Trains.Count).Where(train => train != first.Train).OrderByDescending(train => _set.TotalAmps[train]))
        {
            Add(trains, train);
        }

        for (int round = 0; round < MostRounds && (PutBack(trains) || (thorough && Exchange(trains))); round++)
        {
        }

        return new([.. trains], _track.OpenVolts(_column.Spot) - trains.Sum(Drop));
    }

    /// <summary>By how much a train that stands lowers the place.</summary>
    internal double Drop(StandingTrain standing) => _set.Loads(standing).Sum(load => load.Amps * _column.At(load.Spot));

    private bool PutBack(List<StandingTrain> trains)
    {
        bool gained = false;
        for (int i = 1; i < trains.Count; i++)
        {
            StandingTrain before = trains[i];
            trains.RemoveAt(i);
            StandingTrain after = Best(trains, before.Train) is { } found && Drop(found) > Drop(before) + 1e-9 ? found : before;
            gained |= after != before;
            trains.Insert(i, after);
        }

        return gained;
    }

    /// <summary>Two trains out, and back in the other order.</summary>
    private bool Exchange(List<StandingTrain> trains)
    {
        for (int i = 1; i < trains.Count; i++)
        {
            for (int j = i + 1; j < trains.Count; j++)
            {
                (StandingTrain one, StandingTrain two) = (trains[i], trains[j]);
                if (_set.Trains[one.Train] == _set.Trains[two.Train])
                {
                    continue;
                }

                List<StandingTrain> changed = [.. trains.Where((_, k) => k != i && k != j)];
                Add(changed, two.Train);
                Add(changed, one.Train);
                if (changed.Count == trains.Count && changed.Sum(Drop) > trains.Sum(Drop) + 1e-9)
                {
                    trains.Clear();
                    trains.AddRange(changed);
                    return true;
                }
            }
        }

        return false;
    }

    private void Add(List<StandingTrain> trains, int train)
    {
        if (Best(trains, train) is { } found)
        {
            trains.Add(found);
        }
    }

    private StandingTrain? Best(List<StandingTrain> trains, int train)
    {
        StandingTrain? best = null;
        double most = double.NegativeInfinity;
        foreach (StandingTrain candidate in Likely(trains, train).Concat(Bordering(trains, train)))
        {
            double drop = Drop(candidate);
            if (drop > most)
            {
                (best, most) = (candidate, drop);
            }
        }

        return best;
    }

    /// <summary>Places with the highest transfer resistance that are free.</summary>
    private IEnumerable<StandingTrain> Likely(List<StandingTrain> trains, int train)
    {
        int left = _set.TotalAmps[train] > _set.EngineAmps[train] ? TriedWithCars : 1;
        foreach ((int lane, double x, int live, _) in _marks)
        {
            foreach (bool onward in new[] { true, false })
            {
                StandingTrain candidate = new(train, lane, x, onward, live);
                if (_set.Fits(candidate, trains))
                {
                    yield return candidate;
                    if (--left == 0)
                    {
                        yield break;
                    }
                }
            }
        }
    }

    /// <summary>Places at the ends of lanes and next to trains that stand.</summary>
    private IEnumerable<StandingTrain> Bordering(List<StandingTrain> trains, int train)
    {
        double length = _set.Lengths[train], apart = _set.SpacingMetres;
        for (int lane = 0; lane < _track.Lanes.Length; lane++)
        {
            if (_track.Lanes[lane] is { IsRing: false, HasPower: true })
            {
                foreach (StandingTrain candidate in Between(lane, 0, _track.Lanes[lane].Length))
                {
                    yield return candidate;
                }
            }
        }

        foreach (StandingTrain other in trains)
        {
            (double low, double high) = other.Body(_set.Lengths[other.Train]);
            foreach (StandingTrain candidate in Between(other.Lane, high + apart, low - apart))
            {
                yield return candidate;
            }
        }

        IEnumerable<StandingTrain> Between(int lane, double from, double to) => new[]
        {
            At(lane, from + length, true), At(lane, from, false), At(lane, to, true), At(lane, to - length, false),
        }.Where(candidate => _set.Fits(candidate, trains));

        StandingTrain At(int lane, double x, bool onward) => new(train, lane, x, onward, _track.Lanes[lane].SpanAt(_track.Lanes[lane].Wrap(x)).Live);
    }

    private IEnumerable<(int Lane, double X, int Live, double Ohms)> Marks()
    {
        for (int lane = 0; lane < _track.Lanes.Length; lane++)
        {
            foreach (LaneSpan span in _track.Lanes[lane].Spans)
            {
                if (span.Live != LaneSpan.Hole)
                {
                    yield return (lane, span.From, span.Live, _column.At(span.At(span.From)));
                    yield return (lane, span.To, span.Live, _column.At(span.At(span.To)));
                    if (span.Live == _column.Spot.Live)
                    {
                        double here = span.Where(_column.Spot.Fraction);
                        yield return (lane, here, span.Live, _column.At(_column.Spot));
                    }
                }
            }
        }
    }
}
