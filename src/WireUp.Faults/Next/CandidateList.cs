using System.Collections.Immutable;
using UnitsNet;
using WireUp.Faults.Parts;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Faults.Next;

/// <summary>The readings that somebody could make to part what is suspected, with the tools on hand.</summary>
internal sealed class CandidateList
{
    /// <summary>Volts are read from suspect to suspect among so many.</summary>
    private const int MostEnds = 8;

    private readonly Session _session;
    private readonly Layout _layout;
    private readonly ImmutableArray<ReadingPlace> _loads;
    private readonly ImmutableArray<Setting> _settings;
    private readonly LimitedSupply? _supply;
    private readonly NodePoints _points;

    /// <param name="session">The session.</param>
    /// <param name="loads">Where a load is worth putting: the places of the complaint.</param>
    /// <param name="settings">How the turnouts stand.</param>
    /// <param name="supply">What feeds the track in place of a booster that trips, or null; the short is the load then.</param>
    internal CandidateList(Session session, ImmutableArray<ReadingPlace> loads, ImmutableArray<Setting> settings, LimitedSupply? supply) =>
        (_session, _layout, _loads, _settings, _supply, _points) = (session, session.Circuit.Circuit.Graph.Layout, loads, settings, supply, new(session));

    private RailGraph Graph => _session.Circuit.Circuit.Graph;

    /// <summary>Readings that concern these parts, each once, and those that show whether what was complained of is so.</summary>
    internal IEnumerable<Candidate> For(IReadOnlyList<Part> suspects) => _loads.SelectMany(At).Concat(Breakers()).Concat(suspects.SelectMany(Of)).Concat(FromOneToOther(suspects))
        .Where(CanBeMade)
        .Select(reading => reading with { Settings = _settings, Supply = reading is MeterReading.Ohms ? null : _supply })
        .DistinctBy(reading => reading.ToString())
        .Select(Candidate.Of);

    private bool CanBeMade(MeterReading reading)
    {
        ReadingTools needed = reading switch
        {
            MeterReading.Volts volts => ReadingTools.Volts | (volts.Load is null ? 0 : ReadingTools.Load),
            MeterReading.VoltsAlong volts => ReadingTools.Volts | (volts.Load is null ? 0 : ReadingTools.Load),
            MeterReading.Amps amps => ReadingTools.Clamp | (amps.Load is null ? 0 : ReadingTools.Load),
            MeterReading.Breaker => ReadingTools.None,
            _ => ReadingTools.Ohms,
        };
        return (needed & ~_session.Set.Tools) == 0;
    }

    private IEnumerable<MeterReading> Of(Part part) => part.Spot switch
    {
        Spot.OfLink link => Across(Graph.Links[link.Link].From, Graph.Links[link.Link].To, part.Element),
        Spot.OfWire when part.Element.Kind is FaultElementKind.Tap or FaultElementKind.Feeder => OfFeeder(part),
        Spot.OfWire when part.Element.Kind == FaultElementKind.BusWire => OfBus(part.Element),
        Spot.OfWire => OfDevice(part.Element),
        Spot.OfFeeder => OfFeeder(part),
        Spot.Between pair => [.. IsPlace(part.Element) ? AtPlace(part.Element, pair.To) : Across(pair.From, pair.To, part.Element), .. Beside(pair.From), .. Beside(pair.To)],
        Spot.OfContact contact => Across(contact.Common, contact.Ways[0].Other, part.Element),
        _ => [],
    };

    /// <summary>A short draws its current through whatever leads to it: volts along each such rail, wire and joint, fed by a limited supply.</summary>
    private IEnumerable<MeterReading> Beside(int node) => _supply is null || _points.Of(node) is not { } near
        ? []
        : _points.Beside(node).Select(far => new MeterReading.VoltsAlong(near, far, ElectricPotential.Zero));

    /// <summary>Volts from one of the first suspects to another, on either conductor: where a short lies between them these have a value of their own.</summary>
    private IEnumerable<MeterReading> FromOneToOther(IEnumerable<Part> suspects)
    {
        Spot.Between[] shorts = _supply is null ? [] : [.. suspects.Select(part => part.Spot).OfType<Spot.Between>().Take(MostEnds)];
        return
            from i in Enumerable.Range(0, shorts.Length)
            from other in shorts.Skip(i + 1)
            from nodes in new[] { (Near: shorts[i].From, Far: other.From), (Near: shorts[i].To, Far: other.To) }
            let near = _points.Of(nodes.Near)
            let far = _points.Of(nodes.Far)
            where near is not null && far is not null
            select new MeterReading.VoltsAlong(near, far, ElectricPotential.Zero);
    }

    /// <summary>Whether volts across the two conductors of a short are the volts at a place.</summary>
    private static bool IsPlace(FaultElement element) => element.Kind is FaultElementKind.Section or FaultElementKind.BusPoint;

    private IEnumerable<MeterReading> AtPlace(FaultElement element, int node) =>
    [
        .. element is { District: { } district, BusPoint: { } point } ? At(new ReadingPlace.AtBus(district, point)) : AtRails(element),
        .. _points.Of(node) is { } second ? FromSources(second) : [],
    ];

    private IEnumerable<MeterReading> Across(int from, int to, FaultElement element)
    {
        if (_points.Of(from) is { } first && _points.Of(to) is { } second)
        {
            foreach (MeterReading reading in Along(first, second, element))
            {
                yield return reading;
            }

            foreach (MeterReading reading in FromSources(second))
            {
                yield return reading;
            }
        }

        foreach (MeterReading reading in AtRails(element))
        {
            yield return reading;
        }
    }

    private IEnumerable<MeterReading> OfFeeder(Part part)
    {
        Feeder feeder = _layout.Wiring.Feeders.First(item =>
            item.At == part.Element.Track && item.Tap == part.Element.BusPoint && part.Element.Place.Contains($"feeder {item.Name}", StringComparison.Ordinal));
        (RailSide first, RailSide second) = RailSides.Of(_layout.Control);
        foreach (Leg leg in new[] { Leg.A, Leg.B })
        {
            RailSide side = (leg == Leg.A) == !feeder.Swap ? first : second;
            ReadingPoint bus = new ReadingPoint.OfBus(feeder.District, feeder.Tap, leg), end = new ReadingPoint.OfFeeder(feeder.Name, leg);
            ReadingPoint rail = new ReadingPoint.AtPlace(feeder.At, side);
            foreach (MeterReading reading in new[] { Along(bus, end, part.Element), Along(end, rail, part.Element), Along(bus, rail, part.Element), FromSources(end), FromSources(rail) }.SelectMany(all => all))
            {
                yield return reading;
            }

            foreach (ReadingLoad? load in Loads(part.Element))
            {
                yield return new MeterReading.Amps(end, ElectricCurrent.Zero) { Load = load };
            }
        }

        foreach (MeterReading reading in AtRails(part.Element))
        {
            yield return reading;
        }
    }

    private IEnumerable<MeterReading> OfBus(FaultElement element)
    {
        BusRun run = _layout.Wiring.Buses.Where(bus => bus.District == element.District).SelectMany(bus => bus.Runs)
            .First(run => run.To == element.BusPoint && element.Place.Contains($" {run.From}–", StringComparison.Ordinal));
        string district = element.District!;
        foreach (Leg leg in new[] { Leg.A, Leg.B })
        {
            ReadingPoint to = new ReadingPoint.OfBus(district, run.To, leg);
            foreach (MeterReading reading in Along(new ReadingPoint.OfBus(district, run.From, leg), to, element).Concat(FromSources(to)))
            {
                yield return reading;
            }
        }

        foreach (MeterReading reading in At(new ReadingPlace.AtBus(district, run.To)))
        {
            yield return reading;
        }
    }

    private IEnumerable<MeterReading> OfDevice(FaultElement element)
    {
        IEnumerable<ReadingPlace> places = element.Kind == FaultElementKind.Breaker
            ? [new ReadingPlace.AtBreaker(element.District!)]
            : _layout.Wiring.Boosters.Where(booster => element.Place == $"booster {booster.Name}").Select(booster => new ReadingPlace.AtBooster(booster.Name));
        return places.SelectMany(At);
    }

    private IEnumerable<MeterReading> AtRails(FaultElement element) =>
        element.Piece is { } piece && _layout.Track.First(item => item.Id == piece) is { } found
            ? PlacesOf(found).SelectMany(At)
            : [];

    /// <summary>The breakers behind what was complained of, where nobody has looked yet: whatever touches makes one trip.</summary>
    private IEnumerable<MeterReading> Breakers()
    {
        if (_supply is not null)
        {
            return [];
        }

        HashSet<string> seen = [.. _session.Set.Readings.OfType<MeterReading.Breaker>().Select(reading => reading.District)];
        return _loads.Select(place => _session.Builder.Rough(new MeterReading.Volts(place, ElectricPotential.Zero) { Settings = _settings }))
            .OfType<SessionReading>()
            .Select(reading => _session.Case(reading.Probe.Circuit).Trips.Feeding(reading.Probe))
            .OfType<string>()
            .Where(seen.Add)
            .Select(district => new MeterReading.Breaker(district, false));
    }

    /// <summary>The middle of a section; of a turnout its ends.</summary>
    private static IEnumerable<ReadingPlace> PlacesOf(Piece piece) => piece.PlacesMetres is > 0
        ? [new ReadingPlace.Along(new(piece.Id, piece.PlacesMetres.Value / 2))]
        : piece is Piece.Stop ? [] : piece.Ends.Select(end => new ReadingPlace.AtEnd(end));

    /// <summary>Volts at a place with the load there, and with it where the complaint is.</summary>
    private IEnumerable<MeterReading> At(ReadingPlace place)
    {
        yield return new MeterReading.Volts(place, ElectricPotential.Zero) { Load = _supply is null ? Load(place) : null };
        foreach (ReadingPlace load in _loads.Where(load => load != place))
        {
            yield return new MeterReading.Volts(place, ElectricPotential.Zero) { Load = Load(load) };
        }
    }

    private IEnumerable<MeterReading> Along(ReadingPoint from, ReadingPoint to, FaultElement element)
    {
        foreach (ReadingLoad? load in Loads(element))
        {
            yield return new MeterReading.VoltsAlong(from, to, ElectricPotential.Zero) { Load = load };
        }

        yield return new MeterReading.Ohms(from, to, ElectricResistance.Zero);
    }

    /// <summary>From the terminals of the boosters of a complaint's districts: a long lead, and all that lies on the way.</summary>
    private IEnumerable<MeterReading> FromSources(ReadingPoint to) =>
        from booster in _layout.Wiring.Boosters
        where _supply is null || _supply.Booster == booster.Name
        from leg in new[] { Leg.A, Leg.B }
        from load in _supply is null ? _loads.Select(place => (ReadingLoad?)Load(place)) : [null]
        select new MeterReading.VoltsAlong(new ReadingPoint.OfBooster(booster.Name, leg), to, ElectricPotential.Zero) { Load = load };

    /// <summary>Loads that a reading may be taken with.</summary>
    private IEnumerable<ReadingLoad?> Loads(FaultElement element)
    {
        if (_supply is not null)
        {
            return [null];
        }

        IEnumerable<ReadingPlace> own = element.Piece is { } piece && _layout.Track.First(item => item.Id == piece) is { } found ? PlacesOf(found).Take(1) : [];
        return _loads.Concat(own).Distinct().Select(Load);
    }

    private ReadingLoad Load(ReadingPlace place) => new(place, _session.Set.LoadBox);
}
