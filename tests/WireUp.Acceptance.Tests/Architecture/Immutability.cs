using System.Reflection;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Components;

namespace WireUp.Acceptance.Tests.Architecture;

/// <summary>Finds what could change in a type after it was made.</summary>
internal static class Immutability
{
    private const BindingFlags Own =
        BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly;

    private static readonly Type[] ChangingCollections = [typeof(List<>), typeof(Dictionary<,>), typeof(HashSet<>), typeof(SortedSet<>)];

    /// <summary>One sentence for each part of a type that can change; none for an immutable one.</summary>
    public static IEnumerable<string> Offences(Type type) =>
        [.. FieldOffences(type), .. CollectionOffences(type), .. ShapeOffences(type)];

    /// <summary>State that changes by design: builders, the workspaces of solvers, and the components of the page.</summary>
    public static bool MayChange(Type type) =>
        typeof(IComponent).IsAssignableFrom(type) || type.Name.EndsWith("Builder", StringComparison.Ordinal) || type.Name.EndsWith("Workspace", StringComparison.Ordinal);

    private static IEnumerable<string> FieldOffences(Type type) =>
        type.IsEnum ? [] : type.GetFields(Own).Where(field => !field.IsInitOnly).Select(field => $"{type}: field {field.Name} is not readonly");

    private static IEnumerable<string> CollectionOffences(Type type) =>
        IsRecord(type)
            ? type.GetProperties(BindingFlags.Instance | BindingFlags.Public | BindingFlags.DeclaredOnly)
                .Where(property => IsChangingCollection(property.PropertyType))
                .Select(property => $"{type}: {property.Name} is a {property.PropertyType.Name}")
            : [];

    private static IEnumerable<string> ShapeOffences(Type type)
    {
        if (IsRecord(type) && !type.IsSealed && !IsClosedUnion(type)) yield return $"{type}: neither sealed nor a closed union";
        if (IsStruct(type) && type.GetCustomAttribute<IsReadOnlyAttribute>() is null) yield return $"{type}: a struct that is not readonly";
    }

    private static bool IsChangingCollection(Type type) =>
        type.IsArray || (type.IsGenericType && ChangingCollections.Contains(type.GetGenericTypeDefinition()));

    private static bool IsStruct(Type type) => type is { IsValueType: true, IsEnum: false };

    private static bool IsRecord(Type type) => type.GetMethod("<Clone>$") is not null || type.GetMethod("PrintMembers", Own) is not null;

    // An abstract record that only its own nested cases can extend: no constructor but private ones,
    // leaving aside the copy constructor that the compiler adds.
    private static bool IsClosedUnion(Type type) =>
        type.IsAbstract && type.GetConstructors(Own).All(constructor => constructor.IsPrivate || IsCopy(constructor, type));

    private static bool IsCopy(ConstructorInfo constructor, Type type) =>
        constructor.GetParameters() is [var only] && only.ParameterType == type;
}
