using ArchUnitNET.Loader;
using ArchUnitNET.xUnitV3;
using static ArchUnitNET.Fluent.ArchRuleDefinition;

namespace WireUp.Acceptance.Tests.Architecture;

public sealed class NamespaceTests
{
    private static readonly ArchUnitNET.Domain.Architecture House = new ArchLoader()
        .LoadAssemblies([.. Rooms.InOrder.Select(Rooms.AssemblyOf)])
        .Build();

    public static TheoryData<string> RoomNames => [.. Rooms.InOrder];

    [Theory]
    [MemberData(nameof(RoomNames))]
    public void Types_of_a_room_live_in_its_own_namespace(string room) =>
        Types().That().ResideInAssembly(Rooms.AssemblyOf(room)).And().ArePublic()
            .Should().ResideInNamespaceMatching($"^{room.Replace(".", "\\.", StringComparison.Ordinal)}(\\..+)?$")
            .WithoutRequiringPositiveResults()
            .Check(House);
}
