using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Circuits.Devices;
using WireUp.Documents.Drawings;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Book;

/// <summary>What the chapters of one book have in common.</summary>
internal sealed class BookFacts
{
    public BookFacts(PlanResult plan, BookOptions options, CancellationToken cancellation)
    {
        (Plan, Options) = (plan, options);
        Drawing = new() { Geometry = options.Geometry, Findings = plan.Findings, Proposals = plan.Proposals, Before = plan.Before };
        Drawn = PlanFacts.Of(plan.After, Drawing, cancellation);
        Making = options.Schedule ?? ScheduleOptions.For(plan.After.Lengths);
        Schedule = Schedule.Of(plan.After, Making, plan.Before);
        Lines = new(plan.After);
        Palette = WirePalette.Of(plan.After);
    }

    public PlanResult Plan { get; }

    public BookOptions Options { get; }

    public Layout Layout => Plan.After;

    public Wiring Wiring => Plan.After.Wiring;

    /// <summary>In which units lengths are told.</summary>
    public LengthStyle Lengths => Plan.After.Lengths;

    /// <summary>Length of a new coil of wire.</summary>
    public Length Coil => Options.Coil ?? (Lengths == LengthStyle.Feet ? Length.FromFeet(100) : Length.FromMeters(25));

    /// <summary>The title of the book.</summary>
    public string Title => Options.Title ?? Layout.Name;

    /// <summary>What the drawings show.</summary>
    public DrawingOptions Drawing { get; }

    /// <summary>The layout worked out for drawing.</summary>
    public PlanFacts Drawn { get; }

    /// <summary>How the schedule is made.</summary>
    public ScheduleOptions Making { get; }

    public Schedule Schedule { get; }

    public WirePalette Palette { get; }

    /// <summary>Where on the work sheet its wires stand.</summary>
    public WorkSheetLines Lines { get; }

    /// <summary>What breakers do in time.</summary>
    public ProtectionReport Protection => field ??= Circuits.Devices.Protection.Of(Layout, Plan.Power);

    /// <summary>The coin test of every solved district.</summary>
    public ImmutableArray<CoinTest> CoinTests => [.. Plan.Power.Districts.Zip(Protection.Districts, (power, protection) => new CoinTest(power, protection))];

    /// <summary>Whether the lists leave out what is built.</summary>
    public bool OnlyNew { get; init; }

    /// <summary>The wires to list.</summary>
    public IEnumerable<ScheduledWire> Wires => OnlyNew ? Schedule.ToDo : Schedule.Wires;

    /// <summary>The feeders to list.</summary>
    public IEnumerable<Feeder> Feeders => OnlyNew ? Wiring.Feeders.Except(Plan.Before.Wiring.Feeders) : Wiring.Feeders;

    /// <summary>Each gap with what stands beside it on the plans and who asks for it.</summary>
    public IEnumerable<(string Label, Proposal? Proposal, Gap Gap)> Gaps =>
        Drawn.Gaps.Zip(Wiring.Gaps, (known, gap) => (known.Label, known.Proposal, gap));

    /// <summary>A district with its letter: <c>D turn</c>.</summary>
    public string District(string name) => $"{Drawn.Letters.Of(name)} {name}";

    /// <summary>A place along the track as it is measured.</summary>
    public string Place(TrackPlace place) => PlaceWords.Place(place, Lengths);

    /// <summary>Its booster, or null where the layout names none of that name.</summary>
    public Booster? BoosterOf(string district) => Wiring.Districts.FirstOrDefault(other => other.Name == district) is { } found
        ? Wiring.Boosters.FirstOrDefault(booster => booster.Name == found.Booster)
        : null;

    /// <summary>What a meter should read at a place with a load between the rails and nothing else running.</summary>
    public ElectricPotential VoltsUnder(ElectricCurrent load, DistrictPower district, PlacePower place)
    {
        double sourceOhms = BoosterOf(district.District)?.Resistance.Ohms ?? 0;
        return ElectricPotential.FromVolts(district.SourceVolts.Volts - (load.Amperes * (sourceOhms + place.Loop.Ohms)));
    }
}
