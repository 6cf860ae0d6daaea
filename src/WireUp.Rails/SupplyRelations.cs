using System.Collections.Frozen;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Which wires may meet. Districts without a reversing device have a common phase, so that A may only meet A; a reversing
/// district is a supply of its own whose phase is free. Direct-current cabs are set by hand: each booster has a phase of its own.
/// What is not for trains to run on, programming tracks and accessories, is a supply of its own as well. On three-rail track the
/// running rails are common to all, and two centre rails may meet when their supplies are in phase.
/// </summary>
internal sealed class SupplyRelations
{
    private readonly FrozenDictionary<string, District> _districts;
    private readonly FrozenDictionary<string, string> _phases;
    private readonly FrozenSet<string> _turned;
    private readonly ControlSystem _control;

    internal SupplyRelations(Layout layout)
    {
        _districts = layout.Wiring.Districts.ToFrozenDictionary(district => district.Name);
        _control = layout.Control;
        _phases = layout.Wiring.Districts.ToFrozenDictionary(district => district.Name, Phase);
        HashSet<string> turned = [.. layout.Wiring.Boosters.Where(booster => booster.PhaseTurned).Select(booster => booster.Name)];
        _turned = layout.Wiring.Districts.Where(district => turned.Contains(district.Booster)).Select(district => district.Name).ToFrozenSet();
    }

    /// <summary>A name that two districts share when their phases are tied to each other.</summary>
    internal string PhaseOf(string district) => _phases[district];

    /// <summary>What is wrong when two wires meet, or null.</summary>
    internal MeetingKind? Between(FeederLeg first, FeederLeg second)
    {
        if (PhaseOf(first.District) != PhaseOf(second.District))
        {
            return _districts[first.District].Reversing || _districts[second.District].Reversing
                ? MeetingKind.Reversing
                : MeetingKind.Joined;
        }

        if (_control == ControlSystem.ThreeRail && first.Leg == second.Leg)
        {
            return Alike(first, second);
        }

        return first.Leg != second.Leg ? MeetingKind.Short : first.District == second.District ? null : MeetingKind.Joined;
    }

    /// <summary>Two running rails, which every axle joins; or two centre rails, which short each other when one supply is turned.</summary>
    private MeetingKind? Alike(FeederLeg first, FeederLeg second) => first switch
    {
        { Leg: Leg.B } => null,
        _ when _turned.Contains(first.District) != _turned.Contains(second.District) => MeetingKind.Short,
        _ => first.District == second.District ? null : MeetingKind.Joined,
    };

    /// <summary>Whether both wires belong to devices that swap polarity, and not to the same one.</summary>
    internal bool BothSwap(FeederLeg first, FeederLeg second) =>
        first.District != second.District && _districts[first.District].Reversing && _districts[second.District].Reversing;

    private string Phase(District district) => district switch
    {
        { Use: DistrictUse.Programming } => $"programming {district.Name}",
        { Use: DistrictUse.Accessories } => $"accessories {district.Name}",
        { Reversing: true } => $"reversing {district.Name}",
        _ when _control == ControlSystem.Direct => $"booster {district.Booster}",
        _ => "",
    };
}
