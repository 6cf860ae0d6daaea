using System.Collections.Immutable;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Trains;

/// <summary>The search for the worst placement of one district, best bound first.</summary>
/// <remarks>
/// A node is a part of a length of track with a lower bound for the volts of a train whose engine is there. At first that is with all the
/// trains' current at its own place (the transfer resistance from anywhere is never more than that); when the node comes up, the bound of
/// <see cref="SlotBound"/> at both of its ends, less what currents within the part can add between them: R·I/4, R being the part's
/// resistance. Then the part is halved. When the least bound belongs to a part so short that nothing more is to be gained, it is the bound.
/// </remarks>
internal sealed class WorstTrainsWorkspace
{
    /// <summary>Bounds closer than this, volt, are not told apart.</summary>
    private const double ToleranceVolts = 0.5e-3;

    /// <summary>Cells looked at for one district before the search is cut: about a second.</summary>
    private const double MostWork = 2e8;

    /// <summary>A place is tried if it would be the worst with so much of the distance between bound and placement that the worst has.</summary>
    private const double LikelySlack = 0.75;

    private const int MostMoves = 6;

    private static readonly ImmutableArray<bool> BothWays = [true, false];

    private readonly int _district;
    private readonly ImmutableArray<int> _places;
    private readonly SlotBound _bound;
    private readonly double _heaviest;
    private readonly double _all;
    private readonly PriorityQueue<Node, (double Bound, int Order)> _open = new();
    private readonly Dictionary<LiveSpot, double> _leastAt = [];
    private int _order;
    private double _work;
    private double _slack;
    private Arrangement? _best;

    internal WorstTrainsWorkspace(StandingTrack track, TrainSet set, int district)
    {
        (Track, Set, _district) = (track, set, district);
        _bound = new(track, set);
        (_heaviest, _all) = (set.TotalAmps.Max(), set.TotalAmps.Sum());
        _places = [.. track.SpanOf.Keys.Where(live => track.Live[live].District == district).Order()];
    }

    internal StandingTrack Track { get; }

    internal TrainSet Set { get; }

    /// <summary>What no placement goes below, volt.</summary>
    internal double LeastVolts { get; private set; } = double.PositiveInfinity;

    /// <summary>Whether the search was cut short.</summary>
    internal bool IsCut { get; private set; }

    /// <summary>The worst placement found, or null where no train has room in the district.</summary>
    internal Arrangement? Run(CancellationToken cancellation)
    {
        foreach (int live in _places)
        {
            Open(new(live, 0, 1, IsBounded: false), AllAtOnePlace(live));
        }

        while (_open.TryDequeue(out Node node, out (double Bound, int Order) key))
        {
            cancellation.ThrowIfCancellationRequested();
            IsCut = _work > MostWork;
            if (IsCut || key.Bound > (_best?.Volts ?? double.PositiveInfinity) - ToleranceVolts || (node.IsBounded && Between(node) < ToleranceVolts))
            {
                LeastVolts = key.Bound;
                break;
            }

            Look(node, key.Bound);
        }

        return _best is null ? null : Improved(_best);
    }

    /// <summary>Volts at a place with a whole arrangement drawing.</summary>
    internal double VoltsAt(LiveSpot spot, Arrangement arrangement)
    {
        TransferColumn column = Track.Column(spot);
        return Track.OpenVolts(spot) - arrangement.Trains.SelectMany(Set.Loads).Sum(load => load.Amps * column.At(load.Spot));
    }

    private void Look(Node node, double bound)
    {
        if (!node.IsBounded)
        {
            Open(node with { IsBounded = true }, Math.Max(bound, Bound(node)));
            return;
        }

        double middle = (node.From + node.To) / 2;
        foreach (Node half in new[] { node with { To = middle }, node with { From = middle } })
        {
            Open(half, Math.Max(bound, Bound(half)));
        }
    }

    private void Open(Node node, double bound) => _open.Enqueue(node, (bound, _order++));

    private double AllAtOnePlace(int live)
    {
        LiveSegment track = Track.Live[live];
        Parabola volts = new(
            track.StartVolts - (_all * track.Ohms.C0), track.EndVolts - track.StartVolts - (_all * track.Ohms.C1), -_all * track.Ohms.C2);
        return volts.At(volts.Lowest());
    }

    private double Bound(Node node) => Math.Min(Least(new(node.Live, node.From)), Least(new(node.Live, node.To))) - Between(node);

    /// <summary>What currents within a part add at a place of it. Where two trains cannot both have a place in it, only the heaviest counts.</summary>
    private double Between(Node node)
    {
        TrackSegment segment = Track.Segment(node.Live);
        double part = node.To - node.From;
        return (part * segment.LengthMetres < Set.SpacingMetres ? _heaviest : _all) * segment.Ohms * part / 4;
    }

    /// <summary>Volts that the trains cannot go below at a place; on the way a placement is tried if it could be worse than the worst so far.</summary>
    private double Least(LiveSpot spot)
    {
        LiveSpot place = Track.FirstAt(spot);
        if (_leastAt.TryGetValue(place, out double known))
        {
            return known;
        }

        TransferColumn column = Track.Column(place);
        double least = Track.OpenVolts(place) - _bound.MostDrop(column);
        _work += _bound.Work;
        if (_best is null || least + (LikelySlack * _slack) < _best.Volts)
        {
            double before = _best?.Volts ?? double.PositiveInfinity;
            Try(column, thorough: false);
            _slack = _best is not null && _best.Volts < before ? _best.Volts - least : _slack;
        }

        return _leastAt[place] = least;
    }

    private void Try(TransferColumn column, bool thorough)
    {
        ArrangementFinder finder = new(Track, Set, column);
        (int lane, LaneSpan span) = Track.SpanOf[column.Spot.Live];
        double head = span.Where(column.Spot.Fraction);
        foreach (int train in Enumerable.Range(0, Set.Trains.Count).OrderByDescending(train => Set.TotalAmps[train]).DistinctBy(train => Set.Trains[train]))
        {
            Arrangement[] found = [.. BothWays
                .Select(onward => finder.Around(new(train, lane, head, onward, column.Spot.Live), thorough)).OfType<Arrangement>()];
            if (found.Length > 0)
            {
                Arrangement worst = found.MinBy(one => one.Volts)!;
                _best = _best is null || worst.Volts < _best.Volts ? worst : _best;
                if (!thorough)
                {
                    break;
                }
            }
        }
    }

    /// <summary>Moves the worst-off train with the others standing, then the others for its new place, as long as that helps.</summary>
    private Arrangement Improved(Arrangement start)
    {
        for (int move = 0; move < MostMoves; move++)
        {
            double before = _best!.Volts;
            Try(Track.Column(Track.SpotOf(_best.Trains[0])), thorough: true);
            if (Moved(_best) is { } spot)
            {
                Try(Track.Column(spot), thorough: true);
            }

            if (_best.Volts > before - 1e-9)
            {
                break;
            }
        }

        return WorstOffFirst(_best ?? start);
    }

    /// <summary>The place of the district where an engine would get least, the other trains standing as they do.</summary>
    private LiveSpot? Moved(Arrangement arrangement)
    {
        StandingTrain first = arrangement.Trains[0];
        (TransferColumn Column, double Amps)[] others =
            [.. arrangement.Trains.Skip(1).SelectMany(Set.Loads).Select(load => (Track.Column(load.Spot), load.Amps))];
        List<StandingTrain> standing = [.. arrangement.Trains.Skip(1)];
        LiveSpot? best = null;
        double least = double.PositiveInfinity;
        foreach (int live in _places)
        {
            (int lane, LaneSpan span) = Track.SpanOf[live];
            LiveSegment track = Track.Live[live];
            double own = Set.TotalAmps[first.Train], start = track.StartVolts, end = track.EndVolts;
            foreach ((TransferColumn column, double amps) in others)
            {
                (double atStart, double atEnd) = column.Ends(live);
                (start, end) = (start - (amps * atStart), end - (amps * atEnd));
            }

            Parabola volts = new(start - (own * track.Ohms.C0), end - start - (own * track.Ohms.C1), -own * track.Ohms.C2);
            foreach (double t in new[] { volts.Lowest(), 0, 1 })
            {
                double x = span.Where(t);
                if (volts.At(t) < least && (Set.Fits(first with { Lane = lane, Head = x, Live = live }, standing)
                    || Set.Fits(first with { Lane = lane, Head = x, Live = live, Onward = !first.Onward }, standing)))
                {
                    (best, least) = (new(live, t), volts.At(t));
                }
            }
        }

        return best;
    }

    /// <summary>It may be that another train of the district is still worse off than the one that was looked at.</summary>
    private Arrangement WorstOffFirst(Arrangement arrangement)
    {
        (StandingTrain Train, double Volts) worst = arrangement.Trains
            .Where(train => Track.Live[train.Live].District == _district)
            .Select(train => (train, VoltsAt(Track.SpotOf(train), arrangement)))
            .MinBy(pair => pair.Item2);
        return new([worst.Train, .. arrangement.Trains.Where(train => train != worst.Train)], worst.Volts);
    }

    private readonly record struct Node(int Live, double From, double To, bool IsBounded);
}
